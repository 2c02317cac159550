"""Finds that contend for the same words: how likely each is beside the others, the best set of them."""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple


class Option(NamedTuple):
    """A concept that a find may be: as ``Candidate`` of the records, cheap enough to be made and dropped."""

    concept: str
    probability: float
    form: str
    how: Literal["exact", "near", "sound"]


class Found(NamedTuple):
    """Words ``first`` to ``stop`` that may be a name, and what it is worth to have found it there.

    ``weak`` marks an everyday word that only counts among others of the trade, ``slipped`` a long name with a
    letter or two wrong, which is nothing else than a name.
    """

    first: int
    stop: int
    worth: float
    candidates: tuple[Option, ...]
    weak: bool = False
    slipped: bool = False

    @property
    def chance(self) -> float:
        """The probability of all its candidates together."""
        return sum([candidate.probability for candidate in self.candidates])

    def believed(self, chance: float) -> "Found":
        """The same find, its candidates sharing this probability."""
        total = self.chance
        candidates = tuple(
            candidate._replace(probability=round(chance * candidate.probability / total, 4))
            for candidate in self.candidates
        )
        return self._replace(candidates=candidates)


Span = tuple[int, int]


def contending(spans: Sequence[Span]) -> Iterator[range]:
    """Runs of the spans, which are ordered by their first words, that hang together by overlap."""
    begin, reach = 0, -1
    for at, (first, stop) in enumerate(spans):
        if first >= reach and at > begin:
            yield range(begin, at)
            begin = at
        reach = max(reach, stop)
    if spans:
        yield range(begin, len(spans))


def beliefs(spans: Sequence[Span], odds: Sequence[float]) -> list[float]:
    """How likely each of the spans, ordered by their first words, is a name, when no two names overlap.

    ``odds`` are the log odds of each alone. Every way to choose spans without overlap weighs as much as the
    odds of its spans together; a span is as likely as the ways that hold it.
    """
    found = [0.0] * len(spans)
    for run in contending(spans):
        if len(run) == 1:
            found[run[0]] = 1 / (1 + math.exp(-odds[run[0]]))
        else:
            weights = [math.exp(odds[at]) for at in run]
            found[run[0] : run[-1] + 1] = _shares([spans[at] for at in run], weights)
    return found


def _shares(spans: list[Span], weights: list[float]) -> list[float]:
    """The share of all ways to choose among contending spans in which each is chosen."""
    places = {border: at for at, border in enumerate(sorted({border for span in spans for border in span}))}
    ends: list[list[tuple[int, float]]] = [[] for _ in places]
    starts: list[list[tuple[int, float]]] = [[] for _ in places]
    for (first, stop), weight in zip(spans, weights, strict=True):
        ends[places[stop]].append((places[first], weight))
        starts[places[first]].append((places[stop], weight))
    before = [1.0] * len(places)
    for at in range(1, len(places)):
        before[at] = before[at - 1] + sum([before[first] * weight for first, weight in ends[at]])
    behind = [1.0] * len(places)
    for at in range(len(places) - 2, -1, -1):
        behind[at] = behind[at + 1] + sum([behind[stop] * weight for stop, weight in starts[at]])
    return [
        before[places[first]] * weight * behind[places[stop]] / before[-1]
        for (first, stop), weight in zip(spans, weights, strict=True)
    ]


def best_cover(finds: Sequence[Found]) -> list[Found]:
    """The finds of the greatest summed worth without overlap, in order; a worthless find is never chosen."""
    ordered = sorted((find for find in finds if find.worth > 0), key=lambda find: (find.stop, find.first))
    stops = [find.stop for find in ordered]
    best: list[float] = [0.0]
    came: list[int] = []
    for index, find in enumerate(ordered):
        before = bisect_right(stops, find.first, 0, index)
        with_it = best[before] + find.worth
        came.append(before if with_it > best[-1] else -1)
        best.append(max(best[-1], with_it))
    chosen: list[Found] = []
    at = len(ordered)
    while at:
        before = came[at - 1]
        if before >= 0:
            chosen.append(ordered[at - 1])
            at = before
        else:
            at -= 1
    return chosen[::-1]
