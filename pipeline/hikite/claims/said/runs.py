"""Where numbers said in a row part in talk without marks: "two | two points | three nil"."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from hikite.claims.said.numbers import Number
from hikite.claims.said.wording import Numbers

# What a piece of a run costs: a score or a clock in three digits, a score with a nought, an award, what
# its unit tells, anything else.
_SCORE, _TO_NOTHING, _AWARD, _TOLD, _ODD = 1.0, 0.2, 1.2, 0.3, 5.0
_HIGHEST_AWARD, _HIGHEST, _COUNTED = 5, 40, 3
_MINUTES, _SECONDS = 10, 60


def partings(
    words: Sequence[str], marks: Sequence[str], gaps: Sequence[int], said: Sequence[Number], numbers: Numbers
) -> Iterator[int]:
    """The first tokens of numbers that begin anew right behind others or behind their unit.

    Talk parts unmarked only where no mark stands: ``marks[i]`` is behind word ``i``, ``gaps[i]`` before it.
    """
    run: list[Number] = []
    for number in said:
        if number.form == "noun":
            continue
        if run and not (number.first == run[-1].stop and not gaps[number.first]):
            yield from _parted(words, marks, run, numbers)
            run = []
        run.append(number)
        before = number.first - 1
        if before >= 0 and words[before] in numbers.counted and not (gaps[number.first] or marks[before]):
            yield number.first
    yield from _parted(words, marks, run, numbers)


def _parted(
    words: Sequence[str], marks: Sequence[str], run: Sequence[Number], numbers: Numbers
) -> Iterator[int]:
    """The starts of the cheapest pieces of one run but the first; a dash joins for good."""
    costs, cuts = [0.0], [0]
    for stop in range(1, len(run) + 1):
        starts = [start for start in range(stop) if not (start and marks[run[start].first - 1])]
        best = min(starts, key=lambda start: costs[start] + _cost(words, run[start:stop], numbers))
        costs.append(costs[best] + _cost(words, run[best:stop], numbers))
        cuts.append(best)
    at = cuts[len(run)]
    while at:
        yield run[at].first
        at = cuts[at]


def _cost(words: Sequence[str], piece: Sequence[Number], numbers: Numbers) -> float:
    """How unlikely these numbers are one thing said: a count, a clock, a score or an award."""
    values, stop = [number.value for number in piece], piece[-1].stop
    timed = _unit(words, stop, numbers.timed, numbers.stretched)
    if len(piece) >= _COUNTED:
        if len(piece) == _COUNTED and words[piece[1].first] in numbers.digits:
            return _SCORE
        return _TOLD if all(two == one + 1 for one, two in pairwise(values)) else _ODD
    if len(piece) == 1:
        zero = piece[0].form == "zero"
        if timed or _begins(words, stop, (*numbers.counted, *numbers.level)):
            return _TOLD
        return _AWARD if not zero and values[0] <= _HIGHEST_AWARD else _ODD
    return _pair(words, piece, timed or _begins(words, stop, numbers.left), numbers)


def _pair(words: Sequence[str], piece: Sequence[Number], timed: bool, numbers: Numbers) -> float:
    one, two = piece
    if one.value < _MINUTES <= two.value < _SECONDS and (timed or two.value > _HIGHEST):
        return _TOLD
    if timed or max(one.value, two.value) > _HIGHEST:
        return _ODD
    if _begins(words, two.stop, (*numbers.counted, *numbers.level)):
        return _ODD
    return _TO_NOTHING if "zero" in (one.form, two.form) else _SCORE


def _unit(words: Sequence[str], at: int, units: Sequence[str], between: Sequence[str]) -> bool:
    """Whether a unit stands there, perhaps behind words that stretch it: "four and a half minutes"."""
    if _begins(words, at, units):
        return True
    return any(
        _begins(words, at + size, units)
        for phrase, size in _sized(tuple(between))
        if _begins(words, at, (phrase,))
    )


@lru_cache
def _sized(phrases: tuple[str, ...]) -> tuple[tuple[str, int], ...]:
    return tuple((phrase, phrase.count(" ") + 1) for phrase in phrases)


def _begins(words: Sequence[str], at: int, phrases: Sequence[str]) -> bool:
    """Whether one of the phrases stands at a word."""
    return any(list(words[at : at + size]) == phrase.split() for phrase, size in _sized(tuple(phrases)))
