"""One side's score said alone: "Twelve!"."""

from collections.abc import Iterator

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Tally

# Below it is an award, above it is no score.
_LEAST, _HIGHEST = 6, 29
# A number alone that a clock or a hold is as often told by: "Fifteen, come on."
_ROUND = 5
# A number that a clock or a count had so few words before is that one said again.
_AGAIN_WITHIN = 8


def find_totals(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """As in "Twelve!": a number alone that no one award can be is what one side now has, under the first side
    and not ``ordered``."""
    return tuple(_totals(reading, taken)) if reading.points else ()


def _totals(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for number in reading.numbers.values():
        alone = reading.gaps[number.first] == HARD and reading.written[number.stop] != NONE
        alone = alone and number.value % _ROUND != 0
        cued = bool(reading.ending("total_before", number.first)) and reading.gaps[number.stop] != NONE
        owner = _called(reading, number)
        if number.first in taken or not _LEAST <= number.value <= _HIGHEST or not (alone or cued or owner):
            continue
        if not _said_again(reading, number, taken):
            yield total(reading, number, owner)


def _called(reading: Reading, number: Number) -> str | None:
    """As in "Blue, nine.": whoever is called by name in front of the number, and nothing else."""
    actor = reading.actor_stops.get(number.first)
    if actor is None or not reading.named(actor.first) or reading.gaps[number.stop] == NONE:
        return None
    return actor.side if reading.gaps[actor.first] == HARD and actor.side in reading.sides else None


def _said_again(reading: Reading, number: Number, taken: frozenset[int]) -> bool:
    """As in "Six seconds, everybody. Six.": whether it is a number that was said of something else."""
    return any(
        other.value == number.value and other.first in taken
        for at in range(max(0, number.first - _AGAIN_WITHIN), number.first)
        if (other := reading.numbers.get(at)) is not None
    )


def total(reading: Reading, number: Number, side: str | None = None) -> Claim:
    """The number as what one side now has: ``side`` where it is known, else the first and not ``ordered``."""
    return Claim(
        **reading.talk.span(number.first, number.stop),
        kind="stated_score",
        concept="score",
        status=status_at(reading, number.first, number.stop, "stated"),
        tallies={side or reading.sides[0]: Tally(points=number.value)},
        ordered=side is not None,
        reasons=(Reason(name="total", words=reading.words[number.first]),),
    )
