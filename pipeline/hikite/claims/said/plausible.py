"""Whether a phrase for a stated score can be one where it stands."""

from collections.abc import Sequence

from hikite.claims.said.drafting import stands
from hikite.claims.said.gaps import NONE
from hikite.claims.said.matching import SIDES, Filler, Hit
from hikite.claims.said.pairs import AWARDS, HIGHEST_AWARD, neighbours, told, unparted
from hikite.claims.said.reading import Reading

HIGHEST = 29
"""No score of points is higher. Set by hand."""
# Nor is a judo score's number higher.
_HIGHEST_CLASS = 4
# What a clock's seconds or a price's pence begin with, and no score.
_LED_BY_ZERO = "0"
# A total so loosely said must be higher than any award, or points told so few words before.
_BARELY, _LOOSELY = -1.0, -0.75
_SINCE = 12
COUNTS = ("<n>", "<z>", "<noun>")
# "84" for eight to four.
WRITTEN_AS_ONE = "<zz>"
# Two numbers of which one is known to be whose, or neither.
APART = ("first", "second", "apart")


def fits(reading: Reading, hit: Hit, *, parted: bool = False) -> bool:
    """Whether the numbers can be a score here: neighbours, in reach, of a thing this sport counts.

    Neighbours may be ``parted`` by a mark where more than the words tells that they are one score.
    """
    numbers = [filler for filler in hit.fillers if filler.slot in COUNTS]
    classes = any(filler.slot == "<class>" for filler in hit.fillers)
    how = hit.entry.concept
    if (hit.entry.alone and not stands(reading, hit)) or not _counted(reading, numbers):
        return False
    if any(filler.slot == WRITTEN_AS_ONE for filler in hit.fillers):
        return reading.points and _two_in_one(reading, hit)
    if how in ("pair", "leader", "trailer") and not (classes or hit.entry.of):
        bare = how == "pair" and not told(hit) and all(number.value for number in numbers)
        beside = neighbours(reading, hit, numbers) and (parted or unparted(reading, hit, numbers))
        return (reading.points or not bare) and beside and _named_whole(reading, hit)
    if how == "level" and hit.entry.weight < 0:
        return reading.gaps[hit.first] != NONE and reading.gaps[hit.stop] != NONE
    if how in APART:
        beyond_awards = any(number.value not in AWARDS for number in numbers)
        return reading.points and beyond_awards and not _broken(reading, hit, numbers)
    if how == "total":
        return _total_fits(reading, hit, classes)
    if how == "same" and (len({number.value for number in numbers}) > 1 or _never(reading, hit)):
        return False
    if how == "lead" and (not (reading.points or hit.entry.of) or _never(reading, hit)):
        return False
    if how == "sides" and _one_side(hit):
        return False
    loose = how == "sides" or (how == "pair" and hit.entry.alone)
    return not _broken(reading, hit, numbers if loose else ())


def _counted(reading: Reading, numbers: Sequence[Filler]) -> bool:
    """Whether numbers are such as scores are counted in."""
    if any(reading.words[one.first].startswith(_LED_BY_ZERO) and one.value for one in numbers):
        return False
    return all(number.value <= (HIGHEST if reading.points else _HIGHEST_CLASS) for number in numbers)


def _total_fits(reading: Reading, hit: Hit, classes: bool) -> bool:
    """Whether one side's number can be all that it has."""
    loosely = hit.entry.weight == _LOOSELY and not _adds_up(reading, hit)
    barely = hit.entry.weight <= _BARELY and max(hit.values, default=0) <= HIGHEST_AWARD
    counts = reading.gaps[hit.stop] == NONE and reading.starting("unit", hit.stop)
    if loosely or barely or counts or _half_of_two(reading, hit):
        return False
    if classes and hit.values == (1,) and hit.fillers[0].slot not in SIDES:
        return hit.fillers[-1].slot in SIDES
    return not _broken(reading, hit)


def _half_of_two(reading: Reading, hit: Hit) -> bool:
    """As in "which makes it eight six": points whose number is the first of two."""
    pairs = (one for one in reading.hits.get("tally", ()) if reading.points and one.entry.concept == "pair")
    return any(hit.first <= one.first < hit.stop < one.stop and fits(reading, one) for one in pairs)


def _two_in_one(reading: Reading, hit: Hit) -> bool:
    """As in "84 to Ana": two figures that stand where a score does, and count nothing."""
    figures = next(filler for filler in hit.fillers if filler.slot == WRITTEN_AS_ONE)
    beside = figures.first in reading.number_stops or figures.stop in reading.numbers
    units = reading.gaps[hit.stop] == NONE and bool(reading.starting("unit", hit.stop))
    return not (beside or units)


def _adds_up(reading: Reading, hit: Hit) -> bool:
    """As in "one more, that makes three": whether points were told before what sums them up."""
    near = (number for at, number in reading.numbers.items() if hit.first - _SINCE <= at < hit.first)
    return hit.values[0] > HIGHEST_AWARD or any(number.value in AWARDS for number in near)


def _broken(reading: Reading, hit: Hit, counts: Sequence[Filler] = ()) -> bool:
    """A comma may stand only beside a name, before a number of ``counts`` ("both down, four" is no "down
    four"), or behind one where the words tell whose it is or what it counts: "two and two, in shidos"."""
    borders = {
        border for filler in hit.fillers if filler.slot in SIDES for border in (filler.first, filler.stop)
    }
    borders |= {filler.first for filler in counts}
    stops = [filler.stop for filler in hit.fillers if filler.slot in COUNTS]
    borders |= set(stops) if hit.entry.concept == "sides" else set()
    borders |= _behind_what_is_counted(hit) if hit.entry.of and len(stops) > 1 else set()
    borders |= set(range(stops[-1], hit.stop)) if hit.entry.of and stops else set()
    return any(reading.written[at] != NONE and at not in borders for at in range(hit.first + 1, hit.stop))


def _behind_what_is_counted(hit: Hit) -> set[int]:
    """As in "shidos, two and one": where the numbers begin behind what they count."""
    first = min(filler.first for filler in hit.fillers if filler.slot in COUNTS)
    return {first} if first > hit.first else set()


def _one_side(hit: Hit) -> bool:
    """As in "Ana yuko, Ana waza-ari" tells two awards over again."""
    names = [filler.name for filler in hit.fillers if filler.slot in SIDES]
    return len(names) > 1 and names[0] != "" and len(set(names)) == 1


def _never(reading: Reading, hit: Hit) -> bool:
    """As in "a four each" lists awards, "four all day" praises one."""
    after = reading.gaps[hit.stop] == NONE and reading.starting("tally_never_after", hit.stop)
    before = reading.gaps[hit.first] == NONE and reading.ending("tally_never_before", hit.first)
    return bool(after or before)


def _named_whole(reading: Reading, hit: Hit) -> bool:
    """A bare name after the numbers owns them only at a statement's end, not in "two-one, Ivan turns in"."""
    before, last = hit.fillers[-2:]
    bare = last.slot in SIDES and last.stop == hit.stop and last.first == before.stop
    return not bare or reading.gaps[hit.stop] != NONE
