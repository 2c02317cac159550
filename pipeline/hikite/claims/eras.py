"""Which year's rules a talk says are fought under: "it's the 2018 rules here"."""

from collections.abc import Iterator
from itertools import pairwise

from hikite.claims.phrases import phrases_of
from hikite.claims.said.gaps import gaps_of, joined
from hikite.claims.said.numbers import Number, find_numbers
from hikite.claims.said.wording import load_wording
from hikite.records import Talk
from hikite.terms.speech import Speech

_YEARS, _CENTURIES = range(1990, 2040), (19, 20)
# So many words before the year and behind it may tell that other days' rules are meant.
_BEFORE, _BEHIND = 6, 8


def era_of(talk: Talk, speech: Speech, language: str) -> int | None:
    """The year, where the talk tells one and no other; None where it tells none."""
    words, eras = talk.texts, speech.eras
    said = phrases_of(("before", eras.before), ("rules", eras.rules)).find(words)
    led = {one.stop for one in said if one.name == "before"}
    # One word may stand between: "the 2018 judo rules".
    ruled = {one.first - apart for one in said if one.name == "rules" for apart in (0, 1)}
    if not led or not ruled:
        return None
    told = {
        year
        for year, first, stop in _years(talk, language)
        if first in led
        and stop in ruled
        and eras.other_days.isdisjoint(words[max(first - _BEFORE, 0) : stop + _BEHIND])
    }
    return told.pop() if len(told) == 1 else None


def _years(talk: Talk, language: str) -> Iterator[tuple[int, int, int]]:
    """Every year said, as one number or two ("twenty eighteen"), with its first token and the one behind."""
    numbers = find_numbers(talk.texts, joined(talk, gaps_of(talk)), load_wording(language).numbers)
    for number in numbers:
        if number.value in _YEARS:
            yield number.value, number.first, number.stop
    for one, two in pairwise(numbers):
        year = _in_two(one, two)
        if year in _YEARS:
            yield year, one.first, two.stop


def _in_two(one: Number, two: Number) -> int:
    """As in "twenty eighteen"; 0 where two numbers say no year."""
    beside = one.stop == two.first and one.value in _CENTURIES
    return 100 * one.value + two.value if beside and two.value < 100 else 0
