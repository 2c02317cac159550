"""Scores that a recogniser writes as one figure: "84" is eight four."""

from collections.abc import Iterator

from hikite.claims.said.gaps import NONE
from hikite.claims.said.grown import LAST, both, grown
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason, Tally

# Lower figures may be seconds or a hold's.
_LEAST, _MOST = 60, 99


def find_fused(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """Figures that stand by themselves and go on from a score stated before."""
    if not reading.points:
        return
    hits = reading.hits.get("tally", ())
    stated = [(hit.stop, values) for hit in hits if (values := both(hit)) and max(values) < _LEAST]
    for number in reading.numbers.values():
        if number.first in taken or not _stands_alone(reading, number):
            continue
        said = divmod(number.value, 10)
        before = [values for stop, values in stated if stop <= number.first][-LAST:]
        if grown(before, said):
            stated.append((number.stop, said))
            yield _claim(reading, number, said)


def _stands_alone(reading: Reading, number: Number) -> bool:
    """Whether nothing is counted by a figure too high for a clock's seconds."""
    if number.form != "digits" or not _LEAST <= number.value <= _MOST:
        return False
    if reading.gaps[number.first] == NONE or reading.starting("unit", number.stop):
        return False
    goes_on = number.stop in reading.numbers or reading.starting("award_after", number.stop)
    return reading.gaps[number.stop] != NONE or bool(goes_on)


def _claim(reading: Reading, number: Number, said: tuple[int, int]) -> Claim:
    """The claim that the score is what the figure's two digits say."""
    return Claim(
        **reading.talk.span(number.first, number.stop),
        kind="stated_score",
        concept="score",
        status="stated",
        tallies=dict(zip(reading.sides, [Tally(points=value) for value in said], strict=True)),
        ordered=said[0] == said[1],
        reasons=(Reason(name="fused", words=reading.words[number.first]),),
    )
