"""Counts over matched mentions: found, right by concept, right in side, status and value."""

from collections.abc import Sequence

from pydantic import BaseModel

from hikite.evaluate.calibrations import Guess
from hikite.evaluate.golds import Gold, Truth
from hikite.evaluate.matches import Heard, Same, heard_claims, kind_of, match, said_at, value_right
from hikite.records import Talk, Testimony

KINDS = (
    "technique", "grip", "hold", "position", "landing", "score", "stated_score", "penalty",
    "clock", "stoppage", "result", "principle",
)  # fmt: skip
HEADLINE = ("technique", "grip")
MENTIONS = (*HEADLINE, "hold", "position", "score", "penalty", "stoppage", "result")
"""What is named, referee calls included; landings are labelled only here and there."""


INSTEAD_S = 1.5
"""Within this of a missed label, in seconds, a wrong prediction is shown as heard in its place."""


class Figure(BaseModel, frozen=True):
    """Counts of one kind. ``side``, ``status`` and ``value`` are (right, told) on matched mentions.

    ``vague`` are unmatched predictions of a family word, which are not counted as spurious.
    """

    truths: int = 0
    heard: int = 0
    truths_right: int = 0
    heard_right: int = 0
    vague: int = 0
    side: tuple[int, int] = (0, 0)
    status: tuple[int, int] = (0, 0)
    value: tuple[int, int] = (0, 0)

    @property
    def precision(self) -> float:
        """Share of the predictions that are right."""
        return self.heard_right / self.heard if self.heard else 0.0

    @property
    def recall(self) -> float:
        """Share of the truths that were found."""
        return self.truths_right / self.truths if self.truths else 0.0

    @property
    def f1(self) -> float:
        """Harmonic mean of precision and recall."""
        total = self.precision + self.recall
        return 2 * self.precision * self.recall / total if total else 0.0

    @property
    def strict(self) -> "Figure":
        """The same counts with every vague prediction counted as spurious."""
        return self.model_copy(update={"heard": self.heard + self.vague, "vague": 0})


def add(figures: Sequence[Figure]) -> Figure:
    """The sum of several figures, field by field."""
    return Figure(
        truths=sum(one.truths for one in figures),
        heard=sum(one.heard for one in figures),
        truths_right=sum(one.truths_right for one in figures),
        heard_right=sum(one.heard_right for one in figures),
        vague=sum(one.vague for one in figures),
        side=(sum(one.side[0] for one in figures), sum(one.side[1] for one in figures)),
        status=(sum(one.status[0] for one in figures), sum(one.status[1] for one in figures)),
        value=(sum(one.value[0] for one in figures), sum(one.value[1] for one in figures)),
    )


class Outcome(BaseModel, frozen=True):
    """What became of one labelled mention (or, when ``verdict`` is spurious, of one prediction).

    ``key`` names the truth across runs. ``verdict`` is right, missed, spurious or vague, or a comma-joined
    list of what was wrong on a matched mention: wrong side, wrong status, wrong value.
    """

    kind: str
    verdict: str
    at_s: float
    line: str
    truth: str = ""
    heard: str = ""
    key: str = ""


class ClaimFigures(BaseModel, frozen=True):
    """All that the claims (or mentions) of one recording were worth."""

    kinds: dict[str, Figure]
    outcomes: tuple[Outcome, ...]
    guesses: tuple[Guess, ...]

    @property
    def headline(self) -> Figure:
        """Techniques and grips together."""
        return add([self.kinds[kind] for kind in HEADLINE])


def evaluate_claims(testimony: Testimony, talk: Talk, gold: Gold, same: Same) -> ClaimFigures:
    """The claims of one recording against its labels; ``same`` tells which concepts are equal."""
    return compare(heard_claims(testimony.claims, talk), gold, same)


def compare(heard: Sequence[Heard], gold: Gold, same: Same) -> ClaimFigures:
    """Predicted mentions against the labels: figures by kind, outcomes in time order, guesses.

    Landings are no mistakes where none is labelled: many label what was done and not how it landed.
    """
    if all(kind_of(truth) != "landing" for truth in gold.truths):
        heard = [one for one in heard if one.kind != "landing"]
    pairs = match(heard, gold, same)
    taken = set(pairs.values())
    kinds = {kind: _figure(kind, heard, gold, pairs) for kind in KINDS}
    spare = [one for h, one in enumerate(heard) if h not in taken]
    outcomes = [
        _outcome(gold, t, heard[pairs[t]]) if t in pairs else _missed(gold, t, spare)
        for t in range(len(gold.truths))
    ]
    outcomes += [_spurious(gold, one) for one in spare]
    return ClaimFigures(
        kinds=kinds,
        outcomes=tuple(sorted(outcomes, key=lambda one: one.at_s)),
        guesses=tuple(_guesses(heard, gold, pairs)),
    )


def wrongs(heard: Heard, truth: Truth) -> dict[str, bool]:
    """Of side, status and value: those the truth tells, and whether the prediction's is wrong.

    The status of a slip of the tongue is not asked: it was said, and meant otherwise.
    """
    if heard.claim is None:
        return {}
    asked: dict[str, bool] = {}
    if truth.side is not None:
        asked["side"] = heard.claim.side != truth.side
    if truth.status is not None and not truth.misspoken:
        asked["status"] = heard.claim.status != truth.status
    value = value_right(heard, truth)
    if value is not None:
        asked["value"] = not value
    return asked


def _figure(kind: str, heard: Sequence[Heard], gold: Gold, pairs: dict[int, int]) -> Figure:
    taken = set(pairs.values())
    mine = [t for t, truth in enumerate(gold.truths) if kind_of(truth) == kind]
    told = [h for h, one in enumerate(heard) if one.kind == kind]
    vague = sum(heard[h].generic and h not in taken for h in told)
    asked = [wrongs(heard[pairs[t]], gold.truths[t]) for t in mine if t in pairs]

    def share(what: str) -> tuple[int, int]:
        return sum(not one[what] for one in asked if what in one), sum(what in one for one in asked)

    return Figure(
        truths=len(mine),
        heard=len(told) - vague,
        truths_right=sum(t in pairs for t in mine),
        heard_right=sum(h in taken for h in told),
        vague=vague,
        side=share("side"),
        status=share("status"),
        value=share("value"),
    )


def _outcome(gold: Gold, t: int, heard: Heard) -> Outcome:
    truth = gold.truths[t]
    wrong = [f"wrong {what}" for what, bad in wrongs(heard, truth).items() if bad]
    return _missed(gold, t, ()).model_copy(
        update={"verdict": ", ".join(wrong) or "right", "heard": _told(heard)}
    )


def _missed(gold: Gold, t: int, spare: Sequence[Heard]) -> Outcome:
    """A label nothing answers, with what was heard in its place, if anything was."""
    truth, at_s = gold.truths[t], said_at(gold, gold.truths[t])
    instead = [one for one in spare if abs(one.start_s - at_s) <= INSTEAD_S]
    return Outcome(
        kind=kind_of(truth),
        verdict="missed",
        at_s=truth.start_s,
        line=gold.lines[truth.line].text,
        truth=f"“{truth.said}” {_meant(truth)}",
        heard=_told(min(instead, key=lambda one: abs(one.start_s - at_s))) if instead else "",
        key=f"{t}: {truth.kind} {truth.said}",
    )


def _spurious(gold: Gold, heard: Heard) -> Outcome:
    nearest = min(gold.lines, key=lambda line: max(line.start_s - heard.start_s, heard.start_s - line.end_s))
    verdict = "vague" if heard.generic else "spurious"
    return Outcome(
        kind=heard.kind, verdict=verdict, at_s=heard.start_s, line=nearest.text, heard=_told(heard)
    )


def _meant(truth: Truth) -> str:
    tallies = {side: _short(tally.model_dump()) for side, tally in truth.tallies.items()}
    parts = (
        truth.concept,
        truth.score,
        truth.points,
        truth.seconds,
        tallies or None,
        truth.side,
        truth.status,
    )
    return " ".join(str(part) for part in parts if part is not None)


def _told(heard: Heard) -> str:
    claim = heard.claim
    if claim is None:
        return f"“{heard.quote}” {heard.concept} {heard.confidence:.2f}"
    tallies = {side: _short(tally.model_dump()) for side, tally in claim.tallies.items()}
    parts = (
        heard.concept, claim.score_class, claim.points, claim.seconds, tallies or None, claim.margin,
        claim.side, claim.status, f"{heard.confidence:.2f}",
    )  # fmt: skip
    return f"“{heard.quote}” " + " ".join(str(part) for part in parts if part is not None)


def _short(tally: dict[str, int | None]) -> dict[str, int]:
    return {key: count for key, count in tally.items() if count is not None}


def _guesses(heard: Sequence[Heard], gold: Gold, pairs: dict[int, int]) -> list[Guess]:
    """Confidence in each concept (vague ones aside), and in side and status where one was labelled."""
    owner = {h: gold.truths[t] for t, h in pairs.items()}
    found = [
        Guess(about=one.kind, probability=one.confidence, right=h in owner)
        for h, one in enumerate(heard)
        if h in owner or not one.generic
    ]
    for h, truth in owner.items():
        claim = heard[h].claim
        asked = wrongs(heard[h], truth)
        if claim is not None and "side" in asked and claim.sides:
            told = claim.sides.get(claim.side or "", 0.0)
            found.append(Guess(about="side", probability=told, right=not asked["side"]))
        if claim is not None and "status" in asked and claim.statuses:
            told = claim.statuses.get(claim.status, 0.0)
            found.append(Guess(about="status", probability=told, right=not asked["status"]))
    return found
