"""Draft claims from phrases that say one thing whole: longest first, none overlapping."""

from collections.abc import Iterable, Iterator

from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, ClaimKind, Reason, Status


def longest_first(hits: Iterable[Hit], taken: frozenset[int]) -> Iterator[Hit]:
    """The hits in order of length then weight, without those that overlap an earlier one or a taken token."""
    busy = set(taken)
    for hit in sorted(hits, key=lambda hit: (hit.first - hit.stop, -hit.entry.weight, hit.first)):
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
        first=hit.first,
        stop=hit.stop,
        start_ms=reading.talk.tokens[hit.first].start_ms,
        end_ms=reading.talk.tokens[hit.stop - 1].end_ms,
        kind=kind,
        concept=concept or hit.entry.concept,
        status=status,
        side=hit.side(reading.sides),
        points=hit.entry.points,
        seconds=seconds,
        of=hit.entry.of,
        fell=hit.entry.fell,
        reasons=(
            Reason(name="said", words=reading.talk.words(hit.first, hit.stop), weight=hit.entry.weight),
        ),
    )


def phrased(
    reading: Reading, group: str, kind: ClaimKind, plain: Status, taken: frozenset[int]
) -> Iterator[Claim]:
    """One claim a phrase of the group."""
    return (draft(reading, hit, kind, plain) for hit in longest_first(reading.hits.get(group, ()), taken))
