"""How far two reviewers of the same recordings agree."""

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Sequence

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.anchors import NEAR_MS, Compared, compare
from hikite.archive.decisions import Decision, decisions_of
from hikite.archive.errors import ArchiveError

_FACETS = ("kind", "concept", "status", "side")


class Facet(BaseModel, frozen=True, extra="forbid"):
    """What both judged: how many, the share that is the same, Cohen's kappa (None without one)."""

    name: str
    judged: int
    same: float | None
    kappa: float | None


class Agreement(BaseModel, frozen=True, extra="forbid"):
    """Two reviewers on the recordings that both have worked on.

    ``spans_f1`` takes what each lets stand, same words, kind and concept; ``whole_f1`` also same side and
    status. None where neither lets anything stand.
    """

    one: str
    other: str
    recordings: int
    facets: tuple[Facet, ...]
    spans_f1: float | None
    whole_f1: float | None


def agreement_of(archive: Archive, one: str, other: str) -> Agreement:
    """Verdicts and what they come to, event by event; ArchiveError where there is nobody to compare."""
    for name in (one, other):
        if archive.db.execute("SELECT 1 FROM decisions WHERE reviewer = ?", (name,)).fetchone() is None:
            raise ArchiveError(f"no reviewer {name!r} has decided anything", file=str(archive.file))
    with archive.looking():
        shared = [
            kept.id
            for kept in archive.recordings()
            if all(decisions_of(archive, kept.id, name) for name in (one, other))
        ]
        compared = {number: compare(archive, number, one, other) for number in shared}
    pairs = [pair for found in compared.values() for pair in found]
    both = [pair for pair in pairs if pair.event and pair.one and pair.other]
    verdicts = [(_verdict(pair.one), _verdict(pair.other)) for pair in both]
    stand = [(_standing(pair, pair.one), _standing(pair, pair.other)) for pair in both]
    kept = [(first, second) for first, second in stand if first and second]
    facets = [_facet("verdict", verdicts)]
    facets += [
        _facet(name, [(str(first[at]), str(second[at])) for first, second in kept])
        for at, name in enumerate(_FACETS)
    ]
    ones, others = set[tuple[Hashable, ...]](), set[tuple[Hashable, ...]]()
    for number, found in compared.items():
        first, second = _spans(found)
        ones |= {(number, *span) for span in first}
        others |= {(number, *span) for span in second}
    return Agreement(
        one=one,
        other=other,
        recordings=len(shared),
        facets=tuple(facets),
        spans_f1=f1({span[:4] for span in ones}, {span[:4] for span in others}),
        whole_f1=f1(ones, others),
    )


def kappa(pairs: Sequence[tuple[str, str]]) -> float | None:
    """Cohen's kappa of two people's judgements of the same things; None without any, or where each only ever
    says one and the same thing, so that chance alone would agree.

    Source: J. Cohen, A coefficient of agreement for nominal scales, Educational and Psychological
    Measurement 20 (1960), 37-46.
    """
    if not pairs:
        return None
    seen = sum(first == second for first, second in pairs) / len(pairs)
    firsts, seconds = Counter(first for first, _ in pairs), Counter(second for _, second in pairs)
    chance = sum(count * seconds[name] for name, count in firsts.items()) / len(pairs) ** 2
    return None if chance == 1 else (seen - chance) / (1 - chance)


def f1(ones: Iterable[Hashable], others: Iterable[Hashable]) -> float | None:
    """The harmonic mean of precision and recall of one set against the other; None where both are empty.

    It is the same whichever is taken for the truth.
    """
    first, second = set(ones), set(others)
    return 2 * len(first & second) / (len(first) + len(second)) if first or second else None


def _facet(name: str, pairs: Sequence[tuple[str, str]]) -> Facet:
    same = sum(first == second for first, second in pairs) / len(pairs) if pairs else None
    return Facet(name=name, judged=len(pairs), same=same, kappa=kappa(pairs))


def _verdict(decision: Decision | None) -> str:
    assert decision is not None
    return decision.kind


Standing = tuple[str, str, str, str | None]


def _standing(pair: Compared, decision: Decision | None) -> Standing | None:
    """Kind, concept, status and side of the event as the decision leaves it; None where it does not stand."""
    event = pair.event
    if event is None or decision is None or decision.kind in ("reject", "same"):
        return None
    given = decision.change.given if decision.kind == "correct" else {}
    kind, concept, status, side = (given.get(name, getattr(event, name)) for name in _FACETS)
    return str(kind), str(concept), str(status), None if side is None else str(side)


Span = tuple[Hashable, str, str, str | None, str | None]


def _spans(pairs: Iterable[Compared]) -> tuple[set[Span], set[Span]]:
    """What each lets stand in one recording: of the events that both judged, and what they added."""
    found: tuple[set[Span], set[Span]] = (set(), set())
    added: list[tuple[Decision, int]] = []
    for pair in pairs:
        for number, decision in enumerate((pair.one, pair.other)):
            if pair.event and pair.one and pair.other and (stands := _standing(pair, decision)):
                found[number].add((pair.event.id, *stands))
            elif pair.event is None and decision is not None and decision.kind == "add":
                added.append((decision, number))
    for place, decision, number in _places(added):
        change = decision.change
        found[number].add((place, str(change.kind), str(change.concept), change.status, change.side))
    return found


def _places(added: list[tuple[Decision, int]]) -> Iterator[tuple[Hashable, Decision, int]]:
    """Additions of one thing at nearly the same time are at one place, named by the first of them."""
    places: dict[tuple[str | None, str | None], int] = {}
    for decision, number in sorted(added, key=lambda one: (one[0].anchor.at_ms, one[0].id)):
        at_ms, what = decision.anchor.at_ms, (decision.change.kind, decision.change.concept)
        if what not in places or at_ms - places[what] > NEAR_MS:
            places[what] = at_ms
        yield ("added", places[what]), decision, number
