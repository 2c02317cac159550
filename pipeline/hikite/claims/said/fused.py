"""Scores that a recogniser writes as one figure, or half as another word: "84" and "for three"."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import NamedTuple

from hikite.claims.said.gaps import NONE
from hikite.claims.said.grown import AWARDED, LAST, NOTHING, both, grown
from hikite.claims.said.numbers import Number
from hikite.claims.said.plausible import fits
from hikite.claims.said.reading import Reading
from hikite.records import Claim, Reason, Tally

# Lower figures may be seconds or a hold's.
_LEAST, _MOST = 60, 99
# Three figures that are no clock, and the one in between that is "to".
_WITH_TO, _TO = range(600, 1000), 2
# Low figures are a score where what it has grown by was told so few words before. Set by hand.
_LOWEST, _TOLD_WITHIN = 10, 30


class _Said(NamedTuple):
    """Tokens ``first`` to ``stop`` say a score's two numbers; ``surely`` where they can be little else."""

    first: int
    stop: int
    values: tuple[int, int]
    surely: bool


def find_fused(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """Figures and words that go on from a score stated before."""
    candidates = sorted((*_figures(reading), *_half_heard(reading))) if reading.points else []
    if not candidates:
        return
    hits = (hit for hit in reading.hits.get("tally", ()) if fits(reading, hit))
    stated = [(hit.stop, values) for hit in hits if (values := both(hit)) and max(values) < _LEAST]
    for said in candidates:
        before = [values for stop, values in stated if stop <= said.first][-LAST:]
        if taken.isdisjoint(range(said.first, said.stop)) and (
            grown(before, said.values) if said.surely else _paid(reading, said, before)
        ):
            stated.append((said.stop, said.values))
            yield _claim(reading, said)


def _figures(reading: Reading) -> Iterator[_Said]:
    """Two digits written together that stand by themselves, or three with a two in between: "625" is six to
    five, since no clock shows so many minutes."""
    for number in reading.numbers.values():
        if number.form == "digits" and _LOWEST <= number.value <= _MOST and _alone(reading, number):
            yield _Said(number.first, number.stop, divmod(number.value, 10), number.value >= _LEAST)
        if number.form == "digits" and number.value in _WITH_TO and number.value // 10 % 10 == _TO:
            yield _Said(number.first, number.stop, (number.value // 100, number.value % 10), surely=True)


def _half_heard(reading: Reading) -> Iterator[_Said]:
    """As in "for three" and "to all": a word that sounds like a number, and a number or "all"."""
    heard, level = reading.phrases.wording.numbers.heard, reading.phrases.wording.numbers.level
    for at, (word, following) in enumerate(pairwise(reading.words)):
        if word in heard and following in level and reading.gaps[at + 1] == NONE and _opens(reading, at):
            yield _Said(at, at + 2, (heard[word], heard[word]), surely=False)
    for number in reading.numbers.values():
        at = number.first - 1
        if at < 0 or reading.gaps[number.first] != NONE or reading.words[at] not in heard:
            continue
        if _opens(reading, at) and not reading.starting("award_after", number.stop):
            yield _Said(at, number.stop, (heard[reading.words[at]], number.value), surely=False)


def _opens(reading: Reading, at: int) -> bool:
    """Whether a statement begins there, or words for a score lead to it."""
    led = reading.gaps[at] != NONE or reading.ending("figure_before", at)
    return bool(led) and at not in reading.number_stops


def _alone(reading: Reading, number: Number) -> bool:
    """Whether a figure counts nothing: "so it's 63, a minute left", "41 red"."""
    led = bool(reading.ending("figure_before", number.first)) or reading.named(number.stop)
    timed = any(hit.first == number.stop for hit in reading.hits.get("clock", ()))
    if (reading.gaps[number.first] == NONE and not led) or reading.starting("clock_after", number.stop):
        return False
    if reading.starting("unit", number.stop) and not timed:
        return False
    goes_on = number.stop in reading.numbers or reading.starting("award_after", number.stop)
    return led or timed or reading.gaps[number.stop] != NONE or bool(goes_on)


def _paid(reading: Reading, said: _Said, before: Sequence[Sequence[int]]) -> bool:
    """Whether the score has grown since the last by what was told in between: "two for the pin, 50"; a figure
    alone, from a last one that was said."""
    if not before and said.stop - said.first == 1:
        return False
    last = before[-1] if before else NOTHING
    more = sum(said.values) - sum(last)
    if more <= 0 or not grown([last], said.values, AWARDED):
        return False
    window = range(said.first - _TOLD_WITHIN, said.first)
    told = [number.value for number in reading.numbers.values() if number.first in window]
    return more in told or any(one + two == more for one, two in combinations(told, 2))


def _claim(reading: Reading, said: _Said) -> Claim:
    """The claim that the score is what is said."""
    return Claim(
        **reading.talk.span(said.first, said.stop),
        kind="stated_score",
        concept="score",
        status="stated",
        tallies=dict(zip(reading.sides, [Tally(points=value) for value in said.values], strict=True)),
        ordered=said.values[0] == said.values[1],
        reasons=(Reason(name="fused", words=reading.talk.words(said.first, said.stop)),),
    )
