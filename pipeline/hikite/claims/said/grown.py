"""Scores whose numbers a mark parts, known by the one stated before: "seven, five" after seven to four."""

from collections.abc import Iterable, Iterator, Sequence

from hikite.claims.said.matching import Hit
from hikite.claims.said.pairs import told
from hikite.claims.said.plausible import COUNTS, WRITTEN_AS_ONE, fits
from hikite.claims.said.reading import Reading

LAST = 3
"""One of so many scores stated last must have grown into the next. Set by hand."""
# From one score stated to the next it grows by no more.
_MOST = 9
# Where both numbers may be awards it grows by no more than one award, and from the last score alone.
AWARDED, _AWARDS = 5, (1, 2, 4, 5)
# A phrase whose number both have.
_SAME = "same"
# Lower numbers, one more the second, may be a first score.
_COUNTS_FROM = 3
NOTHING = (0, 0)


def both(hit: Hit) -> tuple[int, ...]:
    """Both numbers that a phrase tells ("four all" is two, and so is "84 to Ana"), or nothing."""
    fused = next((filler.value for filler in hit.fillers if filler.slot == WRITTEN_AS_ONE), None)
    if fused is not None:
        return divmod(fused, 10)
    values = hit.values * 2 if hit.entry.concept == _SAME else hit.values
    return values if len(values) == 2 else ()


def grown(before: Iterable[Sequence[int]], said: Sequence[int], most: int = _MOST) -> bool:
    """Whether a score may have grown out of one before: neither side has less, both together no more than
    ``most`` more."""
    steps = ([new - old for new, old in zip(sorted(said), sorted(one), strict=True)] for one in before)
    return any(min(several) >= 0 and sum(several) <= most for several in steps)


def counted_on(reading: Reading, hits: Iterable[Hit]) -> Iterator[Hit]:
    """The hits into which no score stated can have grown and that rather count a hold, "five six", "10 ten",
    or say an award twice: "two two red"."""
    stated: list[Sequence[int]] = []
    for hit in sorted(hits, key=lambda hit: hit.first):
        values = both(hit)
        if not values or hit.entry.of:
            continue
        before = stated[-LAST:] or [NOTHING]
        awarded_twice = bool(stated) and _twice(reading, hit) and not grown(before, values)
        if awarded_twice or (_counts(reading, hit) and not any(_told_alike(one, values) for one in before)):
            yield hit
        else:
            stated.append(values)


def _twice(reading: Reading, hit: Hit) -> bool:
    """Whether one number is said twice and then whose it is, with no word for a score around it."""
    twice = len(hit.values) == 2 and hit.values[0] == hit.values[1] and not told(hit)
    return twice and any(cue.fillers for cue in reading.starting("award_after", hit.stop))


def _counts(reading: Reading, hit: Hit) -> bool:
    """Whether two numbers go up by one, or are one number written in figures and as a word."""
    numbers = [filler for filler in hit.fillers if filler.slot in COUNTS]
    if len(numbers) != 2 or numbers[0].stop != numbers[1].first or told(hit):
        return False
    one, two = numbers
    twice = reading.words[one.first].isdigit() != reading.words[two.first].isdigit()
    return _COUNTS_FROM <= one.value == two.value - 1 or (twice and one.value == two.value)


def _told_alike(before: Sequence[int], said: Sequence[int]) -> bool:
    """Whether a score has grown out of the one before, the two sides told in the same order: whoever says
    "six two" does not say "five six" of it next."""
    in_order = all(new >= old for new, old in zip(said, before, strict=True))
    return grown([before], said) and (in_order or before[0] < before[1])


def parted(reading: Reading, hits: Iterable[Hit], fitting: Sequence[Hit]) -> Iterator[Hit]:
    """The hits that only a mark between their numbers keeps from being a score, where they go on from one."""
    stated = sorted((hit.stop, values) for hit in fitting if (values := both(hit)))
    begun = {hit.first for hit in fitting}
    for hit in sorted(hits, key=lambda hit: hit.first):
        if len(hit.values) != 2 or not fits(reading, hit, parted=True) or _counting(reading, hit):
            continue
        # "Two, four all."
        if any(filler.first in begun for filler in hit.fillers[1:]):
            continue
        before = [values for stop, values in stated if stop <= hit.first] or [NOTHING]
        if _goes_on(before, hit.values):
            yield hit
            stated = sorted([*stated, (hit.stop, hit.values)])


def _goes_on(before: Sequence[Sequence[int]], said: Sequence[int]) -> bool:
    """Whether two numbers may be the score that one stated before has grown into."""
    awards = all(value in _AWARDS for value in said)
    if awards and said[0] == said[1]:
        return False
    return grown(before[-1:], said, AWARDED) if awards else grown(before[-LAST:], said)


def _counting(reading: Reading, hit: Hit) -> bool:
    """As in "three, two, one" and "five, ten, fifteen": whether numbers beside go on by the same step."""
    one, two = [filler for filler in hit.fillers if filler.slot in COUNTS]
    step = two.value - one.value
    after = reading.numbers.get(two.stop)
    before = next((number for number in reading.numbers.values() if number.stop == one.first), None)
    goes = after is not None and after.value - two.value == step
    came = before is not None and one.value - before.value == step
    return goes or came
