"""Which predicted mention answers which labelled one."""

from collections.abc import Callable, Sequence

from pydantic import BaseModel

from hikite.evaluate.golds import Gold, Truth
from hikite.records import Claim, Mention, Talk

Same = Callable[[str, str], bool]

NEAR_S = 2.0
"""A mention counts when it begins within this many seconds of the labelled line."""

UNNAMED = ("score", "stated_score", "clock")
"""Kinds told apart by their value, not by a concept."""

OTHER_KIND_S, OTHER_VALUE_S = 10.0, 3.0
"""How much later a mention of another kind, or of another value, may as well have been."""

FREE_NAMES = {"out-of-bounds": "out"}
"""Positions have no closed list; the annotators used these two words for one place."""


class Heard(BaseModel, frozen=True):
    """One predicted mention; ``claim`` is missing where only mentions were found."""

    kind: str
    concept: str
    start_s: float
    end_s: float
    quote: str
    generic: bool
    confidence: float
    claim: Claim | None = None


def heard_claims(claims: Sequence[Claim], talk: Talk) -> tuple[Heard, ...]:
    """Every claim as a predicted mention, in the order given."""
    return tuple(
        Heard(
            kind=claim.kind,
            concept=_concept(claim.kind, claim.concept),
            start_s=claim.start_ms / 1000,
            end_s=claim.end_ms / 1000,
            quote=talk.words(claim.first, claim.stop),
            generic=claim.generic,
            confidence=claim.confidence,
            claim=claim,
        )
        for claim in claims
    )


def heard_mentions(mentions: Sequence[Mention], talk: Talk) -> tuple[Heard, ...]:
    """Every mention as a prediction of its likeliest concept."""
    return tuple(
        Heard(
            kind=mention.kind,
            concept=_concept(mention.kind, mention.concept),
            start_s=talk.tokens[mention.first].start_ms / 1000,
            end_s=talk.tokens[mention.stop - 1].end_ms / 1000,
            quote=talk.words(mention.first, mention.stop),
            generic=mention.generic,
            confidence=mention.candidates[0].probability,
        )
        for mention in mentions
    )


def _concept(kind: str, concept: str) -> str:
    """Landings carry their prefix, as labelled ones do."""
    return f"landing:{concept}" if kind == "landing" and not concept.startswith("landing:") else concept


def kind_of(truth: Truth) -> str:
    """The kind a labelled mention is counted under: landings are labelled as positions."""
    landing = truth.kind == "position" and (truth.concept or "").startswith("landing:")
    return "landing" if landing else truth.kind


def agrees(heard: Heard, truth: Truth, same: Same) -> bool:
    """Whether the prediction names what the truth names (its value and side aside)."""
    if truth.kind in UNNAMED or heard.kind in UNNAMED:
        return heard.kind == truth.kind and (truth.kind != "score" or _same_score(heard, truth))
    wanted = [FREE_NAMES.get(name, name) for name in (truth.concept or "", *truth.accept)]
    concept = FREE_NAMES.get(heard.concept, heard.concept)
    return any(concept == name or same(concept, name) for name in wanted)


def _same_score(heard: Heard, truth: Truth) -> bool:
    """Judo scores are named; points are not, and "no score" may be said of any score that is denied."""
    named = (heard.claim.score_class if heard.claim else None) or heard.concept
    if truth.score == "none":
        return named in ("none", "points") or (heard.claim is not None and heard.claim.status == "denied")
    return named == truth.score if truth.score else named in ("points", "score")


def value_right(heard: Heard, truth: Truth) -> bool | None:
    """Whether points, seconds or the stated score are the true ones; ``None`` where there is none to tell.

    What a fault costs is mostly not said but in the rules: the ledger answers for it.
    """
    claim = heard.claim
    if claim is None:
        return None
    if truth.kind == "score" and truth.points is not None:
        return (claim.points or 0) == truth.points
    if truth.kind == "clock" and truth.seconds is not None:
        return claim.seconds == truth.seconds and claim.elapsed == (truth.clock == "elapsed")
    if truth.kind == "hold" and truth.seconds is not None:
        return claim.seconds == truth.seconds
    return _tallies_right(claim, truth) if truth.kind == "stated_score" else None


def _tallies_right(claim: Claim, truth: Truth) -> bool:
    """Every number the truth tells is the claim's; a lead alone is right when its margin is."""
    if truth.margin is not None and not claim.tallies:
        return claim.margin == truth.margin
    told = {side: _told(tally.model_dump()) for side, tally in truth.tallies.items()}
    claimed = {side: _told(tally.model_dump()) for side, tally in claim.tallies.items()}
    if claim.ordered:
        return all(
            claimed.get(side, {}).get(k) == n for side, tally in told.items() for k, n in tally.items()
        )
    return sorted(map(sorted, map(dict.items, told.values()))) == sorted(
        map(sorted, map(dict.items, claimed.values()))
    )


def _told(tally: dict[str, int | None]) -> dict[str, int]:
    return {key: count for key, count in tally.items() if count is not None}


def said_at(gold: Gold, truth: Truth) -> float:
    """About when the labelled words were spoken, in seconds: their share of the line's length."""
    text, at = gold.lines[truth.line].text, -1
    for _ in range(truth.nth):
        at = max(text.find(truth.said, at + 1), at)
    return truth.start_s + (truth.end_s - truth.start_s) * max(at, 0) / max(len(text), 1)


def match(heard: Sequence[Heard], gold: Gold, same: Same) -> dict[int, int]:
    """Truth index to prediction index, one to one and as many as can be, the nearest in time first."""
    costs: dict[tuple[int, int], float] = {}
    for t, truth in enumerate(gold.truths):
        spoken = said_at(gold, truth)
        for h, one in enumerate(heard):
            near = truth.start_s - NEAR_S <= one.start_s <= truth.end_s + NEAR_S
            if near and agrees(one, truth, same):
                other = OTHER_KIND_S * (one.kind != kind_of(truth))
                other += OTHER_VALUE_S * (value_right(one, truth) is False)
                costs[t, h] = abs(one.start_s - spoken) + other
    return pair(costs)


def pair(costs: dict[tuple[int, int], float]) -> dict[int, int]:
    """A largest one-to-one pairing of the given (left, right) pairs, cheap pairs taken first."""
    owner: dict[int, int] = {}
    paired: set[int] = set()
    for left, right in sorted(costs, key=lambda two: (costs[two], two)):
        if left not in paired and right not in owner:
            owner[right] = left
            paired.add(left)
    choices: dict[int, list[int]] = {}
    for left, right in sorted(costs, key=lambda two: (costs[two], two)):
        choices.setdefault(left, []).append(right)
    for left in choices:
        if left not in paired:
            _place(left, choices, owner, set())
    return {left: right for right, left in owner.items()}


def _place(left: int, choices: dict[int, list[int]], owner: dict[int, int], tried: set[int]) -> bool:
    """Give ``left`` a partner, moving others to their next choice where that frees one."""
    for right in choices[left]:
        if right in tried:
            continue
        tried.add(right)
        if right not in owner or _place(owner[right], choices, owner, tried):
            owner[right] = left
            return True
    return False
