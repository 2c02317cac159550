"""Counts aloud over a hold: "eight, nine, ten", and a number alone while one is on."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hikite.claims.said.gaps import NONE
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason, Status

_LONGEST_HOLD = 25
_FULL_HOLD = 20
ALOUD, STEPWISE, FIVES = "aloud", "stepwise", "fives"
"""The marks of a count that is one whatever was said before, of one that goes up by ones, and of one by fives
without a pause ("fifteen twenty"), which only goes on with a count."""
_STEP = 5
# So many numbers in a row, or two parted by a mark up to so much, are counted over nothing but a hold.
_MANY, _FEW, _HIGH = 3, 2, 8


def find_counts(reading: Reading, taken: frozenset[int] | set[int]) -> Iterator[Claim]:
    """A claim for every run of numbers that may be a count, of no hold yet."""
    for run in _runs(reading, taken):
        counted = _counted(reading, run)
        if counted and _counts(reading, counted, taken):
            yield _count(reading, counted)


def _runs(reading: Reading, taken: frozenset[int] | set[int]) -> Iterator[list[Number]]:
    """Numbers said side by side with nothing else, each higher than the last: "eight, nine, ten"."""
    run: list[Number] = []
    for number in (*reading.numbers.values(), None):
        free = number is not None and number.first not in taken
        if number is not None and free and run and _goes_on(reading, run, number):
            run.append(number)
            continue
        if run:
            yield run
        run = [number] if number is not None else []


def _goes_on(reading: Reading, run: Sequence[Number], number: Number) -> bool:
    """Side by side without a pause they belong together, rising or not: "eight six" is no count.

    A count that goes on in the next line after a mark is told anew.
    """
    if number.first != run[-1].stop:
        return False
    if reading.gaps[number.first] == NONE:
        return True
    rises = number.value > run[-1].value and not _opens_line(reading, number.first)
    return rises and _begins(reading, run[0])


def _opens_line(reading: Reading, at: int) -> bool:
    tokens = reading.talk.tokens
    return at > 0 and tokens[at].cue != tokens[at - 1].cue


def _begins(reading: Reading, number: Number) -> bool:
    """Whether a count may begin there: behind a mark, at a line's start, or behind words that lead to one."""
    at = number.first
    return _opens_line(reading, at) or reading.gaps[at] != NONE or bool(reading.ending("count_before", at))


def _counted(reading: Reading, run: Sequence[Number]) -> Sequence[Number]:
    """The run without a last number of which something else is told: "three, four. Five is a yuko"."""
    told = reading.starting("count_not_after", run[-1].stop) or (
        len(run) == 1 and reading.ending("count_not_before", run[0].first)
    )
    return run[:-1] if told else run


def _counts(reading: Reading, run: Sequence[Number], taken: frozenset[int] | set[int]) -> bool:
    """Whether the numbers are free, rising, in reach of a hold, and stand alone."""
    if any(number.form in ("noun", "zero") or number.first in taken for number in run):
        return False
    rising = all(low.value < high.value for low, high in pairwise(run))
    if run[-1].value > _LONGEST_HOLD or not rising:
        return False
    # "One fifteen" is a clock; without a pause a count goes up by one, over a hold that is counted by fives.
    if any(reading.gaps[high.first] == NONE and high.value - low.value > 1 for low, high in pairwise(run)):
        return _fives(run)
    # "Fifteen sixteen" over a hold is nothing but a count, whatever stands around it.
    if len(run) > 1 and run[-1].value - run[-2].value == 1:
        return True
    if not _begins(reading, run[0]):
        return False
    stop = run[-1].stop
    return reading.gaps[stop] != NONE or bool(reading.starting("count_after", stop))


def _fives(run: Sequence[Number]) -> bool:
    """As in "ten fifteen twenty"."""
    return all(high.value - low.value == _STEP and low.value % _STEP == 0 for low, high in pairwise(run))


def _mark(reading: Reading, run: Sequence[Number]) -> str | None:
    """How sure numbers are a hold's: "eleven, twelve" by themselves, "two, four" never."""
    if _fives(run) and any(reading.gaps[number.first] == NONE for number in run[1:]):
        return FIVES
    if len(run) == 1 or any(high.value - low.value != 1 for low, high in pairwise(run)):
        return None
    marked = len(run) == _FEW and reading.gaps[run[-1].first] != NONE
    return ALOUD if run[-1].value >= _HIGH and (marked or len(run) >= _MANY) else STEPWISE


def _count(reading: Reading, run: Sequence[Number]) -> Claim:
    """One run counted aloud ("eight, nine, ten")."""
    first, stop, seconds = run[0].first, run[-1].stop, run[-1].value
    status: Status = "completed" if seconds >= _FULL_HOLD else "running"
    return Claim(
        **reading.talk.span(first, stop),
        kind="hold",
        concept="",
        status=status,
        seconds=seconds,
        of=_mark(reading, run),
        reasons=(Reason(name="counted", words=reading.talk.words(first, stop)),),
    )
