"""Draft claims from phrases that say one thing whole: longest first, none overlapping."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.claims.said.wording import Group
from hikite.records import Claim, ClaimKind, Reason, Status
from hikite.records.marks import BOTH

PSEUDO = "-"
# The same call named twice in one breath ("tap, tap, tap") is one claim.
_BREATH_MS = 4_000


def whole_hits(reading: Reading, group: Group, taken: frozenset[int]) -> Iterator[Hit]:
    """A group's phrases, longest first, without overlaps, look-alikes, and those that had to stand alone."""
    hits = (hit for hit in reading.hits.get(group, ()) if stands(reading, hit))
    return (hit for hit in longest_first(hits, taken) if hit.entry.concept != PSEUDO)


def stands(reading: Reading, hit: Hit) -> bool:
    """Whether a pause or mark stands on each side where the entry asks for one."""
    alone = hit.entry.alone
    if alone in ("opening", "sentence") and reading.gaps[hit.first] != HARD:
        return False
    if alone == "sentence" and reading.gaps[hit.stop] != HARD:
        return False
    left = alone not in ("left", "both") or reading.gaps[hit.first] != NONE
    right = alone not in ("right", "both") or reading.gaps[hit.stop] != NONE
    return left and right


def longest_first(hits: Iterable[Hit], taken: frozenset[int]) -> Iterator[Hit]:
    """The hits in order of length then weight, without those that overlap an earlier one or a taken token."""
    busy = set(taken)
    for hit in sorted(
        hits, key=lambda hit: (hit.first - hit.stop, -hit.entry.weight, -len(hit.fillers), hit.first)
    ):
        if busy.isdisjoint(range(hit.first, hit.stop)):
            busy.update(range(hit.first, hit.stop))
            yield hit


def draft(
    reading: Reading,
    hit: Hit,
    kind: ClaimKind,
    plain: Status,
    *,
    concept: str | None = None,
    seconds: int | None = None,
) -> Claim:
    """The claim of one phrase; its entry's own status wins over the words around it."""
    status = hit.entry.status or status_at(reading, hit.first, hit.stop, plain)
    return Claim(
        **reading.talk.span(hit.first, hit.stop),
        kind=kind,
        concept=concept or hit.entry.concept,
        status=status,
        side=hit.side(reading.sides),
        attributes=(BOTH,) if hit.entry.who == "both" else (),
        points=hit.entry.points,
        seconds=seconds,
        of=hit.entry.of,
        fell=hit.entry.fell,
        reasons=(
            Reason(name="said", words=reading.talk.words(hit.first, hit.stop), weight=hit.entry.weight),
        ),
    )


def phrased(
    reading: Reading,
    group: Group,
    kind: ClaimKind,
    plain: Status,
    taken: frozenset[int],
    breath_ms: int = _BREATH_MS,
) -> Iterator[Claim]:
    """One claim a phrase of the group, in order of first token; said again in one breath, only the fuller."""
    claims = [draft(reading, hit, kind, plain) for hit in whole_hits(reading, group, taken)]
    yield from once(sorted(claims, key=lambda claim: claim.first), breath_ms)


def once(claims: Sequence[Claim], breath_ms: int = _BREATH_MS) -> Iterator[Claim]:
    """The claims without those that repeat the one before within a breath, with the same status and side."""

    def fuller(kept: Claim, claim: Claim) -> Claim | None:
        if not _repeats(kept, claim, breath_ms):
            return None
        return claim if kept.side is None and claim.side is not None else kept

    return folded(claims, fuller)


def folded(claims: Iterable[Claim], join: Callable[[Claim, Claim], Claim | None]) -> Iterator[Claim]:
    """The claims, each joined to the one before it as long as ``join`` makes one of the two."""
    kept: Claim | None = None
    for claim in claims:
        one = None if kept is None else join(kept, claim)
        if one is None and kept is not None:
            yield kept
        kept = claim if one is None else one
    if kept is not None:
        yield kept


def _repeats(earlier: Claim, later: Claim, breath_ms: int) -> bool:
    same = (earlier.concept, earlier.status, earlier.points, earlier.fell, earlier.of)
    if same != (later.concept, later.status, later.points, later.fell, later.of):
        return False
    sides = {claim.side for claim in (earlier, later) if claim.side is not None}
    if earlier.attributes != later.attributes:
        return False
    return len(sides) < 2 and later.start_ms - earlier.end_ms < breath_ms
