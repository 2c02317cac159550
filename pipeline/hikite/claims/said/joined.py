"""A score whose numbers a recogniser wrote as one: "yeah, fair, 63" is six to three."""

from collections.abc import Iterator

from hikite.claims.said.gaps import NONE
from hikite.claims.said.matching import Hit
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Tally

# Below it a figure is rather a count or one side's total.
_LEAST, _HIGHEST = 31, 99
# Since the score stated before, not more has been scored.
_SINCE = 8
_CONFIDENCE = 0.7
# A phrase whose number both have.
_SAME = "same"


def find_joined(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Stated scores written as one figure of two digits, where they follow from the score stated before."""
    if not reading.points:
        return ()
    return tuple(_joined(reading, taken))


def _joined(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for number in reading.numbers.values():
        if number.first in taken or not _two_digits(number) or not _stands(reading, number):
            continue
        one, two = divmod(number.value, 10)
        if not _follows(reading, number.first, one, two):
            continue
        first, second = reading.sides
        yield Claim(
            **reading.talk.span(number.first, number.stop),
            kind="stated_score",
            concept="score",
            status=status_at(reading, number.first, number.stop, "stated"),
            tallies={first: Tally(points=one), second: Tally(points=two)},
            ordered=one == two,
            confidence=_CONFIDENCE,
            reasons=(Reason(name="joined", words=reading.words[number.first]),),
        )


def _two_digits(number: Number) -> bool:
    return number.form == "digits" and _LEAST <= number.value <= _HIGHEST and number.value % 10 > 0


def _stands(reading: Reading, number: Number) -> bool:
    """Whether it counts nothing that follows, and no number or word of place leads to it."""
    first, stop = number.first, number.stop
    if first in reading.number_stops or reading.ending("clock_before", first):
        return False
    small = stop < len(reading.words) and reading.words[stop] in reading.phrases.closed
    return reading.gaps[stop] != NONE or small or stop in reading.actors or stop in reading.numbers


def _follows(reading: Reading, first: int, one: int, two: int) -> bool:
    """Whether both have as much as when the score was last stated in two numbers, or a little more."""
    hits = (hit for hit in reading.hits.get("tally", ()) if hit.stop <= first and _both(hit))
    last = max(hits, key=lambda hit: hit.stop, default=None)
    if last is None:
        return False
    low, high = min(_both(last)), max(_both(last))
    most, least = max(one, two), min(one, two)
    return most >= high and least >= low and one + two - low - high <= _SINCE


def _both(hit: Hit) -> tuple[int, ...]:
    """Both numbers that a phrase tells, each a score's, or nothing."""
    values = hit.values * 2 if hit.entry.concept == _SAME else hit.values
    return values if len(values) == 2 and max(values) < _LEAST else ()
