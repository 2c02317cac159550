"""The best set of finds that do not overlap."""

from bisect import bisect_right
from collections.abc import Sequence
from typing import Literal, NamedTuple

# A find is worth its letters, less a little each, so that one long name outweighs the short ones inside it.
WORTH_OF_LETTER, EACH = 0.6, 0.5
# What only sounds like a name, or nearly is one, is worth so much of one that stands as written.
UNWRITTEN = 0.95


class Option(NamedTuple):
    """A concept that a find may be: as ``Candidate`` of the records, cheap enough to be made and dropped."""

    concept: str
    probability: float
    form: str
    how: Literal["exact", "near", "sound"]


class Found(NamedTuple):
    """Words ``first`` to ``stop`` that may be a name, and what it is worth to have found it there.

    ``weak`` marks an everyday word that only counts among others of the trade, ``slipped`` a long name with a
    letter or two wrong, which is nothing else than a name, ``told`` a description without a name.
    """

    first: int
    stop: int
    worth: float
    candidates: tuple[Option, ...]
    weak: bool = False
    slipped: bool = False
    told: bool = False

    def believed(self, chance: float) -> "Found":
        """The same find, its candidates sharing this probability."""
        total = sum([candidate.probability for candidate in self.candidates])
        candidates = tuple(
            [
                Option(concept, round(chance * probability / total, 4), form, how)
                for concept, probability, form, how in self.candidates
            ]
        )
        return self._replace(candidates=candidates)


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
