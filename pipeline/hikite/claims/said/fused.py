"""Scores that a recogniser writes as one figure: "84" is eight four."""

from collections.abc import Iterator

from hikite.claims.said.gaps import NONE
from hikite.claims.said.matching import Hit
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason, Tally

# Lower figures may be seconds or a hold's; a score has grown by no more since one was stated.
_LEAST, _MOST, _GROWN = 60, 99, 9
# One of so many last scores stated must have grown into it.
_LAST = 3
# A phrase whose number both have.
_SAME = "same"


def find_fused(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """Figures that stand by themselves and go on from a score stated before."""
    if not reading.points:
        return
    hits = reading.hits.get("tally", ())
    stated = [(hit.stop, values) for hit in hits if (values := _both(hit)) and max(values) < _LEAST]
    for number in reading.numbers.values():
        if number.first in taken or not _stands_alone(reading, number):
            continue
        said = divmod(number.value, 10)
        before = [values for stop, values in stated if stop <= number.first][-_LAST:]
        if any(_grown(values, said) for values in before):
            stated.append((number.stop, said))
            yield _claim(reading, number, said)


def _both(hit: Hit) -> tuple[int, ...]:
    """Both numbers that a phrase tells ("four all" is two), or nothing."""
    values = hit.values * 2 if hit.entry.concept == _SAME else hit.values
    return values if len(values) == 2 else ()


def _stands_alone(reading: Reading, number: Number) -> bool:
    """Whether nothing is counted by a figure too high for a clock's seconds."""
    if number.form != "digits" or not _LEAST <= number.value <= _MOST:
        return False
    if reading.gaps[number.first] == NONE or reading.starting("unit", number.stop):
        return False
    goes_on = number.stop in reading.numbers or reading.starting("award_after", number.stop)
    return reading.gaps[number.stop] != NONE or bool(goes_on)


def _grown(before: tuple[int, ...], said: tuple[int, ...]) -> bool:
    """Whether neither side has less than before and both together not too much more."""
    steps = [new - old for new, old in zip(sorted(said), sorted(before), strict=True)]
    return min(steps) >= 0 and sum(steps) <= _GROWN


def _claim(reading: Reading, number: Number, said: tuple[int, int]) -> Claim:
    return Claim(
        **reading.talk.span(number.first, number.stop),
        kind="stated_score",
        concept="score",
        status="stated",
        tallies=dict(zip(reading.sides, [Tally(points=value) for value in said], strict=True)),
        ordered=said[0] == said[1],
        reasons=(Reason(name="fused", words=reading.words[number.first]),),
    )
