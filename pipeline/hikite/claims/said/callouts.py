"""Each side called with its number, a statement each: "Red, eight. Blue, three."."""

from collections.abc import Iterator
from typing import NamedTuple

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason, Tally

# What awards give is rather awarded; a score is no higher than the last.
_AWARDS, _HIGHEST = range(1, 6), 40
_OPPONENT = "opponent"


class _Called(NamedTuple):
    first: int
    number: Number
    side: str
    how: str


def find_callouts(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """Two statements of a name and a number that one award alone cannot be are the score."""
    if not reading.points:
        return
    called = {one.first: one for one in _called(reading, taken)}
    for one in called.values():
        two = called.get(one.number.stop)
        if two is None or (one.number.value in _AWARDS and two.number.value in _AWARDS):
            continue
        side = one.side or _other(reading, two.side)
        if side in reading.sides and two.side != side and (two.side or two.how == _OPPONENT):
            yield _claim(reading, one, two, side)


def _called(reading: Reading, taken: frozenset[int]) -> Iterator[_Called]:
    """Statements of a competitor and a number, and nothing else."""
    for number in reading.numbers.values():
        actor = reading.actor_stops.get(number.first)
        if actor is None or number.value > _HIGHEST or not taken.isdisjoint(range(actor.first, number.stop)):
            continue
        whole = reading.gaps[actor.first] == HARD and reading.gaps[number.stop] != NONE
        if whole and (reading.named(actor.first) or actor.how == _OPPONENT):
            yield _Called(actor.first, number, actor.side, actor.how)


def _other(reading: Reading, side: str) -> str:
    return reading.other(side) if side else ""


def _claim(reading: Reading, one: _Called, two: _Called, side: str) -> Claim:
    return Claim(
        **reading.talk.span(one.first, two.number.stop),
        kind="stated_score",
        concept="score",
        status="stated",
        tallies={
            side: Tally(points=one.number.value),
            _other(reading, side): Tally(points=two.number.value),
        },
        ordered=True,
        reasons=(Reason(name="sides", words=reading.talk.words(one.first, two.number.stop)),),
    )
