"""Whether a phrase for a stated score can be one where it stands."""

from collections.abc import Sequence

from hikite.claims.said.drafting import stands
from hikite.claims.said.gaps import HARD, NONE, SOFT
from hikite.claims.said.matching import SIDES, Filler, Hit
from hikite.claims.said.reading import Reading

HIGHEST = 29
"""No score of points is higher. Set by hand."""
# Nor is a judo score's number higher.
_HIGHEST_CLASS = 4
# What a clock's seconds or a price's pence begin with, and no score.
_LED_BY_ZERO = "0"
_CUE_WITHIN = 4
# No rule set gives more at once; a total so loosely said must be higher, or points told so few words before.
_HIGHEST_AWARD, _BARELY, _LOOSELY = 5, -1.0, -0.75
_SINCE = 12
# So few words behind an action what it was worth is called.
_RIGHT_BEHIND = 2
# Where not every second of a hold is counted, its count goes up by so much.
_FIVE = 5
COUNTS = ("<n>", "<z>", "<noun>")
# "84" for eight to four.
WRITTEN_AS_ONE = "<zz>"
# Two numbers of which one is known to be whose, or neither; numbers that awards have are rather those.
APART, _AWARDS = ("first", "second", "apart"), range(1, _HIGHEST_AWARD + 1)


def fits(reading: Reading, hit: Hit, *, parted: bool = False) -> bool:
    """Whether the numbers can be a score here: neighbours, in reach, of a thing this sport counts.

    Neighbours may be ``parted`` by a mark where more than the words tells that they are one score.
    """
    numbers = [filler for filler in hit.fillers if filler.slot in COUNTS]
    classes = any(filler.slot == "<class>" for filler in hit.fillers)
    how = hit.entry.concept
    if hit.entry.alone and not stands(reading, hit):
        return False
    if any(reading.words[one.first].startswith(_LED_BY_ZERO) and one.value for one in numbers):
        return False
    if any(number.value > (HIGHEST if reading.points else _HIGHEST_CLASS) for number in numbers):
        return False
    if any(filler.slot == WRITTEN_AS_ONE for filler in hit.fillers):
        return reading.points and _two_in_one(reading, hit)
    if how in ("pair", "leader", "trailer") and not (classes or hit.entry.of):
        bare_judo = not reading.points and not _told(hit) and all(number.value for number in numbers)
        beside = _neighbours(reading, hit, numbers) and (parted or _unparted(reading, hit, numbers))
        return not bare_judo and beside and _named_whole(reading, hit)
    if how == "same" and (len({number.value for number in numbers}) > 1 or _never(reading, hit)):
        return False
    if how == "total" and hit.entry.weight == _LOOSELY and not _adds_up(reading, hit):
        return False
    if how == "total" and reading.gaps[hit.stop] == NONE and reading.starting("unit", hit.stop):
        return False
    if how == "level" and hit.entry.weight < 0:
        return reading.gaps[hit.first] != NONE and reading.gaps[hit.stop] != NONE
    if how == "lead" and (not (reading.points or hit.entry.of) or _never(reading, hit)):
        return False
    if how == "sides" and _one_side(hit):
        return False
    if how in APART:
        return (
            reading.points
            and any(n.value not in _AWARDS for n in numbers)
            and not _broken(reading, hit, numbers)
        )
    if how == "total" and hit.entry.weight <= _BARELY and max(hit.values, default=0) <= _HIGHEST_AWARD:
        return False
    if how == "total" and classes and hit.values == (1,) and hit.fillers[0].slot not in SIDES:
        return hit.fillers[-1].slot in SIDES
    loose = how == "sides" or (how == "pair" and hit.entry.alone)
    return not _broken(reading, hit, numbers if loose else ())


def _two_in_one(reading: Reading, hit: Hit) -> bool:
    """As in "84 to Ana": two figures that stand where a score does, and count nothing."""
    figures = next(filler for filler in hit.fillers if filler.slot == WRITTEN_AS_ONE)
    beside = figures.first in reading.number_stops or figures.stop in reading.numbers
    units = reading.gaps[hit.stop] == NONE and bool(reading.starting("unit", hit.stop))
    return not (beside or units)


def _adds_up(reading: Reading, hit: Hit) -> bool:
    """As in "one more, that makes three": whether points were told before what sums them up."""
    near = (number for at, number in reading.numbers.items() if hit.first - _SINCE <= at < hit.first)
    return hit.values[0] > _HIGHEST_AWARD or any(number.value in _AWARDS for number in near)


def _told(hit: Hit) -> bool:
    """Whether the words around two numbers alone make them a score: "eleven, eight, in favour of Ana"."""
    return hit.entry.weight > 0


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


def _neighbours(reading: Reading, hit: Hit, numbers: Sequence[Filler]) -> bool:
    """Whether two numbers may be one score, not a count, awards, or a length of time."""
    first, second = numbers[0], numbers[-1]
    if (
        first.stop == second.first
        and reading.gaps[second.stop] == NONE
        and second.stop in reading.numbers
        and not _paired(reading, first.first)
    ):
        return False
    if _exclaimed(reading, hit, first, second) or _said_twice(reading, hit, first, second):
        return False
    if reading.gaps[hit.stop] == NONE and reading.starting("unit", hit.stop):
        return False
    if second.value == first.value + 1 and _steps(reading, first, second):
        return False
    if _by_fives(first, second) and first.stop == second.first and not _told(hit):
        return False
    return not (hit.entry.alone and (_parts_of(reading, first, second) or _sum(first, second)))


def _unparted(reading: Reading, hit: Hit, numbers: Sequence[Filler]) -> bool:
    """As in "three, two" needs a word for a score in front; "three two" and "three to two" do not."""
    first, second = numbers[0], numbers[-1]
    if _told(hit) or not any(reading.written[first.stop : second.first + 1]):
        return True
    if _alone(reading, hit, first, second):
        return True
    low = max(0, hit.first - _CUE_WITHIN)
    return any(reading.ending("tally_before", stop) for stop in range(low, hit.first + 1))


def _exclaimed(reading: Reading, hit: Hit, first: Filler, second: Filler) -> bool:
    """As in "nothing, nothing, he pushes": twice nothing with a halt between is no score by itself, but it is
    where words for a score lead to it: "I make it still nothing, nothing"."""
    if reading.ending("tally_before", hit.first):
        return False
    bare = (first.first, second.stop) == (hit.first, hit.stop) and first.stop == second.first
    return bare and not first.value and not second.value and reading.gaps[second.first] != NONE


def _said_twice(reading: Reading, hit: Hit, first: Filler, second: Filler) -> bool:
    """As in "down she goes two two" and "it's four four for blue": the same award twice, with whose it is or,
    with no hyphen between, right behind an action."""
    if first.stop != second.first or first.value != second.value or first.value not in _AWARDS:
        return False
    if _given_to(reading, second.stop):
        return True
    if (first.first, second.stop) != (hit.first, hit.stop):
        return False
    near = range(first.first - _RIGHT_BEHIND, first.first + 1)
    done = any(one.kind == "technique" and one.stop in near for one in reading.mentions)
    return done and not reading.talk.tokens[second.first].glued


def _given_to(reading: Reading, at: int) -> bool:
    """Whether what stands right there gives points to a side: "for blue", not "blue" alone."""
    cues = reading.starting("award_after", at) if reading.gaps[at] == NONE else ()
    return any(cue.fillers and cue.fillers[0].slot in SIDES and cue.fillers[0].first > at for cue in cues)


def _alone(reading: Reading, hit: Hit, first: Filler, second: Filler) -> bool:
    """As in "Two, four." and "Seven, three, and one minute twelve": no awards, though a pause parts them.

    A number above every award is a score; two alike are two awards, one after the other a count ("eleven,
    twelve, and he's out") unless nothing at all stands beside them.
    """
    if reading.gaps[hit.first] != HARD or reading.gaps[second.first] != SOFT or first.stop != second.first:
        return False
    if second.value == first.value + 1:
        return reading.gaps[hit.stop] == HARD and not _goes_on(reading, first, second)
    high = max(first.value, second.value) > _HIGHEST_AWARD
    if hit.entry.concept != "pair":
        return high
    apart = second.value not in (first.value, first.value - 1) or high
    return apart and (reading.gaps[hit.stop] == HARD or (high and reading.gaps[hit.stop] == SOFT))


def _goes_on(reading: Reading, first: Filler, second: Filler) -> bool:
    """As in "Three. Four, five. Six!": whether the statements around go on counting."""
    before = any(
        number.stop == first.first and number.value == first.value - 1 for number in reading.numbers.values()
    )
    after = reading.numbers.get(second.stop)
    return before or (after is not None and after.value == second.value + 1)


def _parts_of(reading: Reading, first: Filler, second: Filler) -> bool:
    """As in "Six. One and five.": whether two numbers are what the one before them is made of."""
    before = next((number for number in reading.numbers.values() if number.stop == first.first), None)
    return before is not None and before.value == first.value + second.value


def _sum(first: Filler, second: Filler) -> bool:
    """As in "two and one": an award and the single point that comes on top of it."""
    return second.value == 1 and 1 < first.value <= _HIGHEST_AWARD


def _steps(reading: Reading, first: Filler, second: Filler) -> bool:
    """As in "one two, one two": numbers that go on and on count steps."""
    same = [first.value, second.value]
    after = reading.numbers.get(second.stop)
    then = reading.numbers.get(after.stop) if after else None
    stops = {number.stop: number for number in reading.numbers.values()}
    before = stops.get(first.first)
    ahead = stops.get(before.first) if before else None
    runs = ((after, then), (ahead, before))
    return any(one and two and [one.value, two.value] == same for one, two in runs)


def _by_fives(first: Filler, second: Filler) -> bool:
    """As in "five, ten": a hold is counted so, and hardly any score goes so."""
    return first.value > 0 and first.value % _FIVE == 0 and second.value == first.value + _FIVE


def _paired(reading: Reading, first: int) -> bool:
    """Of numbers in a row, the last two are the score: "four, eight six" may come without its comma."""
    run = 0
    at = first
    while at in reading.numbers and (run == 0 or reading.gaps[at] == NONE):
        at, run = reading.numbers[at].stop, run + 1
    return run % 2 == 0
