"""Points told over: added up ("two, two, four, one: nine") or as they grew ("one, three, five. Five nil")."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.claims.said.totals import total
from hikite.records import Claim, Reason
from hikite.records.spans import tokens_of

# What parts one sum from the next in one statement.
_PARTING = ";"
_SHORTEST, _SURELY = 3, 4
_HIGHEST_PART, _HIGHEST = 5, 40
# The total stands in a score stated so few words away.
_STATED_WITHIN = 8


def find_sums(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """What was given before, told over, each part ``recalled``; the last number is what its side now has."""
    if not reading.points:
        return ()
    claims: list[Claim] = []
    for run in _runs(reading, taken):
        if _told_over(reading, run):
            claims.extend(_claims(reading, run))
        elif _listed(reading, run):
            claims.extend(_part(reading, number) for number in run)
    return tuple(claims)


def _runs(reading: Reading, taken: frozenset[int]) -> Iterator[list[Number]]:
    """Numbers of one statement with nothing but small words between them."""
    run: list[Number] = []
    for number in (*reading.numbers.values(), None):
        if number is not None and run and number.first not in taken and _goes_on(reading, run, number):
            run.append(number)
            continue
        if len(run) >= _SHORTEST:
            yield run
        run = [number] if number is not None and number.value and number.first not in taken else []


def _goes_on(reading: Reading, run: Sequence[Number], number: Number) -> bool:
    """Whether only small words or a mark part a number from the run; without marks what the parts come to may
    follow with nothing between: "so it's one and four five"."""
    last = run[-1]
    between = range(last.stop, number.first)
    gaps = reading.gaps[last.stop : number.first + 1]
    parted = reading.talk.tokens[last.stop - 1].after.startswith(_PARTING)
    if not number.value or parted or HARD in gaps:
        return False
    if (
        not between
        and gaps == [NONE]
        and not (_joined(run) and sum(one.value for one in run) == number.value)
    ):
        return False
    joins = tokens_of(hit for at in between for hit in reading.starting("sum_join", at))
    return joins.issuperset(between)


def _told_over(reading: Reading, run: Sequence[Number]) -> bool:
    """Whether the last number is what the others come to, and no awards are called as they fall."""
    parts, last = [number.value for number in run[:-1]], run[-1].value
    counted = all(two.value - one.value == 1 for one, two in pairwise(run)) and not _joined(run)
    if counted or last > _HIGHEST:
        return False
    if len(parts) == _SHORTEST - 1 and sum(parts) == last and _equals(reading, run):
        return True
    stated = _stated(reading, run, last)
    if sum(parts) == last and max(parts) <= _HIGHEST_PART:
        return stated or len(run) >= _SURELY or bool(reading.ending("sum_before", run[0].first))
    steps = [two.value - one.value for one, two in pairwise(run)]
    return stated and min(steps) > 0 and max(steps) <= _HIGHEST_PART


def _listed(reading: Reading, run: Sequence[Number]) -> bool:
    """As in "Two, four, one, two, one. That's ten": whether what was given before comes so thick, or
    what it all comes to stands in front or behind."""
    values = [number.value for number in run]
    if max(values) > _HIGHEST_PART or _counts(values):
        return False
    low, high = run[0].first - _STATED_WITHIN, run[-1].stop + _STATED_WITHIN
    near = (one for at, one in reading.numbers.items() if low <= at <= high and one not in run)
    told = (len(run) >= _SURELY or _joined(run)) and any(one.value == sum(values) for one in near)
    return told or len(run) > _SURELY


def _counts(values: Sequence[int]) -> bool:
    """As in "five, four, three, two, one" and "one, two, one, two": a clock, a count, steps."""
    steps = {two - one for one, two in pairwise(values)}
    return len(steps) == 1 or values[:2] == values[2:4] or steps == {1, -1}


def _equals(reading: Reading, run: Sequence[Number]) -> bool:
    """As in "four and three is seven": whether the words say that the last number is the sum."""
    apart = range(run[0].stop, run[1].first)
    return bool(apart) and any(hit.first >= run[-2].stop for hit in reading.ending("sum_is", run[-1].first))


def _joined(run: Sequence[Number]) -> bool:
    """As in "one and two, three": no count aloud has words between its numbers."""
    return any(one.stop < two.first for one, two in pairwise(run))


def _stated(reading: Reading, run: Sequence[Number], last: int) -> bool:
    """Whether a score with that number is stated right before or after."""
    low, high = run[0].first - _STATED_WITHIN, run[-1].stop + _STATED_WITHIN
    return any(
        last in hit.values
        and len(hit.values) == 2
        and (low <= hit.first < hit.stop <= run[0].first or run[-1].stop <= hit.first <= high)
        for hit in reading.hits.get("tally", ())
    )


def _claims(reading: Reading, run: Sequence[Number]) -> Iterator[Claim]:
    added = sum(number.value for number in run[:-1]) == run[-1].value
    for number in run[:-1]:
        yield (
            _part(reading, number)
            if added and number.value <= _HIGHEST_PART
            else total(reading, number).model_copy(update={"status": "recalled"})
        )
    yield total(reading, run[-1], _owner(reading, run))


def _owner(reading: Reading, run: Sequence[Number]) -> str | None:
    """Whose the points are: named in front of them, or of what they come to."""
    named = [hit.side(reading.sides) for hit in reading.ending("sum_owner", run[0].first)]
    between = range(run[-2].stop, run[-1].first)
    named += [reading.actors[at].side for at in between if at in reading.actors]
    return next((side for side in named if side in reading.sides), None)


def _part(reading: Reading, number: Number) -> Claim:
    """An award told over."""
    return Claim(
        **reading.talk.span(number.first, number.stop),
        kind="score",
        concept="points",
        status="recalled",
        points=number.value,
        reasons=(Reason(name="told over", words=reading.talk.words(number.first, number.stop)),),
    )
