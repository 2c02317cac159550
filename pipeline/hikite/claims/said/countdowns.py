"""The last seconds counted aloud, one number after the other."""

from collections.abc import Iterator
from itertools import zip_longest

from hikite.claims.said.gaps import NONE
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason

_FROM = 10
# So many numbers with nothing between them are counted, not scored.
_SHORTEST = 3


def find_countdowns(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """The last seconds counted aloud ("three, two, one"): two or more numbers, each one less."""
    claims: list[Claim] = []
    run: list[int] = []
    numbers = [
        number for number in reading.numbers.values() if number.first not in taken and number.form != "noun"
    ]
    for number, following in zip_longest(numbers, numbers[1:]):
        if reading.gaps[number.first] == NONE:
            run = []
            continue
        run.append(number.first)
        goes_on = (
            following is not None
            and following.first == number.stop
            and reading.gaps[following.first] != NONE
            and following.value == number.value - 1
        )
        if goes_on:
            continue
        if len(run) > 1 and reading.numbers[run[0]].value <= _FROM:
            claims.extend(tick(reading, first) for first in run)
        run = []
    return tuple(claims)


def in_one_breath(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "three two one and the gong": numbers down to one with nothing between them, of nothing else."""
    stop = 0
    for first in reading.numbers:
        run = _run(reading, first, taken) if first >= stop else []
        stop = reading.numbers[run[-1]].stop if run else stop
        if len(run) >= _SHORTEST and reading.numbers[run[-1]].value == 1 and _by_themselves(reading, stop):
            yield from (tick(reading, number) for number in run)


def _run(reading: Reading, first: int, taken: frozenset[int]) -> list[int]:
    """The numbers from one on that go down by one."""
    run: list[int] = []
    while first in reading.numbers and first not in taken and reading.numbers[first].form != "noun":
        if run and reading.numbers[first].value != reading.numbers[run[-1]].value - 1:
            break
        run.append(first)
        first = reading.numbers[first].stop
    return run


def _by_themselves(reading: Reading, stop: int) -> bool:
    """Not as in "three two, one minute left" and "three two, one for blue"."""
    if reading.starting("unit", stop) or reading.starting("award_unit", stop) or stop in reading.numbers:
        return False
    return not (reading.gaps[stop] == NONE and reading.starting("award_after", stop))


def tick(reading: Reading, first: int) -> Claim:
    """The claim of one second counted."""
    number = reading.numbers[first]
    return Claim(
        **reading.talk.span(first, number.stop),
        kind="clock",
        concept="clock",
        status="stated",
        seconds=number.value,
        reasons=(Reason(name="countdown", words=reading.words[first]),),
    )
