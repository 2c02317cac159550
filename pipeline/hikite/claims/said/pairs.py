"""Whether two numbers beside each other are one score: no count, no awards, no length of time."""

from collections.abc import Sequence

from hikite.claims.said.gaps import HARD, NONE, SOFT
from hikite.claims.said.matching import SIDES, Filler, Hit
from hikite.claims.said.reading import Reading

HIGHEST_AWARD = 5
"""No rule set gives more at once."""
AWARDS = range(1, HIGHEST_AWARD + 1)
"""Numbers that awards have are rather those."""
_CUE_WITHIN = 4
# So few words behind an action what it was worth is called.
_RIGHT_BEHIND = 2
# Where not every second of a hold is counted, its count goes up by so much.
_FIVE = 5
# Numbers so high, one apart, are rather a count than a score. Set by hand.
_COUNTED = 10


def told(hit: Hit) -> bool:
    """Whether the words around two numbers alone make them a score: "eleven, eight, in favour of Ana"."""
    return hit.entry.weight > 0


def neighbours(reading: Reading, hit: Hit, numbers: Sequence[Filler]) -> bool:
    """Whether two numbers may be one score, not a count, awards, or a length of time."""
    first, second = numbers[0], numbers[-1]
    if (
        first.stop == second.first
        and reading.gaps[second.stop] == NONE
        and second.stop in reading.numbers
        and not _paired(reading, first.first)
    ):
        return False
    if second.value and _names_points(reading, second.stop):
        return False
    if _exclaimed(reading, hit, first, second) or _said_twice(reading, hit, first, second):
        return False
    if reading.gaps[hit.stop] == NONE and reading.starting("unit", hit.stop):
        return False
    if second.value == first.value + 1 and _steps(reading, first, second):
        return False
    if min(first.value, second.value) >= _COUNTED and _one_apart(first, second) and not told(hit):
        return False
    if _by_fives(first, second) and first.stop == second.first and not told(hit):
        return False
    return not (hit.entry.alone and (_parts_of(reading, first, second) or _sum(first, second)))


def _names_points(reading: Reading, at: int) -> bool:
    """As in "that's twenty, two points": whether points are counted by the number right before alone."""
    word = reading.words[at] if at < len(reading.words) else ""
    return reading.gaps[at] == NONE and word in reading.phrases.wording.numbers.counted


def unparted(reading: Reading, hit: Hit, numbers: Sequence[Filler]) -> bool:
    """As in "three, two" needs a word for a score in front; "three two" and "three to two" do not."""
    first, second = numbers[0], numbers[-1]
    if told(hit) or not any(reading.written[first.stop : second.first + 1]):
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
    if first.stop != second.first or first.value != second.value or first.value not in AWARDS:
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
    high = max(first.value, second.value) > HIGHEST_AWARD
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
    return second.value == 1 and 1 < first.value <= HIGHEST_AWARD


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


def _one_apart(first: Filler, second: Filler) -> bool:
    """As in "ten, eleven" of a hold and "twelve, eleven" of the clock: counted on, or down."""
    return abs(first.value - second.value) == 1 and first.stop == second.first


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
