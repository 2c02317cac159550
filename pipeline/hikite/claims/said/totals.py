"""One side's score said alone: "Twelve!"."""

from collections.abc import Iterator

from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import HARD, NONE, Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Tally

# Below it is an award, above it is no score.
_LEAST, _HIGHEST = 6, 29


def find_totals(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """As in "Twelve!": a number alone that no one award can be is what one side now has, under the first side
    and not ``ordered``."""
    return tuple(_totals(reading, taken)) if reading.points else ()


def _totals(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for number in reading.numbers.values():
        alone = reading.gaps[number.first] == HARD and reading.gaps[number.stop] != NONE
        cued = bool(reading.ending("total_before", number.first)) and reading.gaps[number.stop] != NONE
        if number.first in taken or not _LEAST <= number.value <= _HIGHEST or not (alone or cued):
            continue
        yield total(reading, number)


def total(reading: Reading, number: Number, side: str | None = None) -> Claim:
    """The number as what one side now has: ``side`` where it is known, else the first and not ``ordered``."""
    return Claim(
        first=number.first,
        stop=number.stop,
        start_ms=reading.talk.tokens[number.first].start_ms,
        end_ms=reading.talk.tokens[number.stop - 1].end_ms,
        kind="stated_score",
        concept="score",
        status=status_at(reading, number.first, number.stop, "stated"),
        tallies={side or reading.sides[0]: Tally(points=number.value)},
        ordered=side is not None,
        reasons=(Reason(name="total", words=reading.words[number.first]),),
    )
