"""How surely a number is an award of points, weighed from what stands before and after it."""

from typing import NamedTuple

from hikite.claims.said.drafting import PSEUDO
from hikite.claims.said.gaps import HARD, NONE, SOFT
from hikite.claims.said.matching import SIDES, Hit
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import Reading
from hikite.claims.said.slots import PRONOUNS
from hikite.records import Reason
from hikite.records.marks import INSTEAD

# Evidence in log odds. A bare number is rather no award; alone between two stops it is one; before a plain
# noun it counts that noun; after a word it does not follow from, it is a pronoun ("the younger one").
_BARE = -1.0
_ALONE = 1.2
_COUNTED = -3.0
_PRONOUN = -1.0
# Marks in the data: an article that makes a number a noun ("a four"), a word for one more ("another two"),
# praise ("a big one" is no point), an article that makes "one" whoever it is.
_NOUN, FURTHER, _PRAISE, _WHOEVER = "noun", "further", "praise", "whoever"
# So many words after it is told that something was given, how much it was may be told.
TOLD_WITHIN = 3
# So many words before an award it is said at most to take the place of the one before; what was shown may
# come down a little earlier.
_CORRECTED_WITHIN, _LOWERED_WITHIN = 12, 20


class Award(NamedTuple):
    """Tokens ``first`` to ``stop`` award ``number``, with the cues that say so and their summed weight."""

    first: int
    stop: int
    number: Number
    weight: float
    cues: tuple[Hit, ...]

    @property
    def counted(self) -> bool:
        """Whether points are named as what is counted."""
        return self.stop > self.number.stop and not self.further

    @property
    def further(self) -> bool:
        """Whether the words say that it is another award than the one before."""
        return any(cue.entry.concept == FURTHER for cue in self.cues)


def weigh(reading: Reading, number: Number) -> Award:
    """The number with the words that belong to it and the evidence for an award."""
    dress = max(reading.ending("award_dress", number.first), key=_size, default=None)
    first = dress.first if dress is not None else number.first
    unit = max(reading.starting("award_unit", number.stop), key=_size, default=None)
    stop = unit.stop if unit is not None and reading.gaps[number.stop] == NONE else number.stop
    before = near(reading.ending("award_before", first), reading.gaps[first])
    after = whole(reading, near(reading.starting("award_after", stop), reading.gaps[stop]))
    after = after or apart(reading, reading.starting("award_after", stop))
    behind = [*asked(reading, stop), *withdrawn(reading, stop)]
    behind += [hit for one in after for hit in withdrawn(reading, one.stop)]
    cues = [max(hits, key=_size) for hits in (behind, before, after) if hits]
    cues += [hit for hit in (dress, unit) if hit is not None]
    weight = _BARE + sum(hit.entry.weight for hit in cues)
    dressed = dress.entry.concept if dress is not None else ""
    praised = dressed == _PRAISE and number.value == 1 and unit is None
    called = [hit for hit in after if not bare_name(hit) or reading.named(hit.first)]
    whoever = dressed == _WHOEVER and not (unit or called) and _somebody(reading, number)
    if praised or whoever:
        weight += 2 * _COUNTED
    noun = dressed == _NOUN and number.value > 1
    pointed = bool(reading.ending("attack_before", number.first))
    named = pointed or not (before or after or _asked_for(reading, first))
    if number.form == "noun" and named and _names_an_attack(reading, number):
        weight += 2 * _COUNTED
    if before and unit is None and _told_behind(reading, number):
        weight += 2 * _COUNTED
    if _counts_on(reading, number):
        weight += _COUNTED
    weight += _standing(
        reading, Award(first, stop, number, weight, tuple(cues)), bool(before), bool(after), noun
    )
    return Award(first, stop, number, weight, tuple(cues))


def _somebody(reading: Reading, number: Number) -> bool:
    """As in "blue's the one built like a barn": whether the talk goes on about a "one"."""
    goes_on = reading.gaps[number.stop] != HARD and number.stop not in reading.numbers
    return number.value == 1 and number.form != "noun" and goes_on


def near(hits: tuple[Hit, ...], gap: int) -> list[Hit]:
    """Cues speak across a comma, never across a statement's end; counted things stand right beside."""
    return [hit for hit in hits if gap == NONE or (gap == SOFT and hit.entry.weight > 0)]


def whole(reading: Reading, hits: list[Hit]) -> list[Hit]:
    """The cues without names that open the next clause: "two, red" is red's, "two, red turns in" is not."""
    return [
        hit
        for hit in hits
        if reading.gaps[hit.first] == NONE or reading.gaps[hit.stop] != NONE or not bare_name(hit)
    ]


def apart(reading: Reading, hits: tuple[Hit, ...]) -> list[Hit]:
    """The cues that are a statement of their own: "One! Red!", "Shido! To white."."""
    return [
        hit
        for hit in hits
        if (hit.entry.who == "both" or any(filler.slot in SIDES for filler in hit.fillers))
        and reading.gaps[hit.first] == HARD
        and (reading.gaps[hit.stop] == HARD or hit.stop in reading.halts)
        and (not bare_name(hit) or reading.named(hit.first))
    ]


def withdrawn(reading: Reading, stop: int) -> list[Hit]:
    """The words set apart behind an award that take it back: "Ippon! No, no.", "five, sorry, four"."""
    if reading.gaps[stop] == NONE:
        return []
    return [hit for hit in reading.starting("award_withdrawn", stop) if reading.gaps[hit.stop] != NONE]


def asked(reading: Reading, stop: int) -> list[Hit]:
    """The words set apart behind an award that ask whether it is one: "Ippon! Is it?"."""
    if reading.gaps[stop] == NONE:
        return []
    return [hit for hit in reading.starting("award_asked", stop) if reading.gaps[hit.stop] != NONE]


def instead(reading: Reading, first: int) -> tuple[str, ...]:
    """As in "no, sorry, it's a yuko" and "It's coming down. Yuko.": whether the statement, up to the award,
    corrects the one before, or in judo those before it tell that what was shown is less."""
    opening = first
    while opening > 0 and first - opening < _CORRECTED_WITHIN and reading.gaps[opening] != HARD:
        opening -= 1
    said = (hit for at in range(opening, first) for hit in reading.starting("award_instead", at))
    corrects = any(hit.stop <= first for hit in said)
    return (INSTEAD,) if corrects or (not reading.points and _lowered(reading, first)) else ()


def _lowered(reading: Reading, first: int) -> bool:
    called = (score.stop for score in reading.classes.values() if score.stop <= first)
    low = max(max(called, default=0), first - _LOWERED_WITHIN)
    said = (hit for at in range(low, first) for hit in reading.starting("award_lowered", at))
    return any(hit.stop <= first and reading.gaps[hit.stop] != NONE for hit in said)


def for_what(reading: Reading, stop: int) -> bool:
    """Whether the words after an award tell it apart by its reason: "one for the walk"."""
    return any(
        not hit.fillers or hit.fillers[0].slot not in SIDES for hit in reading.starting("award_after", stop)
    )


def reason_of(reading: Reading, hit: Hit) -> Reason:
    """The cue as the reason of a claim."""
    return Reason(name=hit.group, words=reading.talk.words(hit.first, hit.stop), weight=hit.entry.weight)


def _asked_for(reading: Reading, first: int) -> bool:
    """As in "they've given him something. A single.": how much was given is told in the next statement."""
    given = (hit for hit in reading.hits.get("award_whole", ()) if hit.entry.points is None)
    return reading.gaps[first] == HARD and any(0 <= first - hit.stop <= TOLD_WITHIN for hit in given)


def _told_behind(reading: Reading, number: Number) -> bool:
    """As in "he's given her one. A warning for us": what was given is told in the next statement."""
    taker = reading.actor_stops.get(number.first)
    apart = reading.gaps[number.stop] == HARD or (taker is not None and taker.how in PRONOUNS)
    if number.value != 1 or not apart:
        return False
    penalties = (hit for hit in reading.hits.get("penalty", ()) if hit.first == number.stop)
    return any(hit.entry.status is None and hit.entry.concept != PSEUDO for hit in penalties)


def _counts_on(reading: Reading, number: Number) -> bool:
    """As in "one step, two, three steps": a number before another that counts some noun counts it too."""
    following = reading.numbers.get(number.stop)
    if following is None or reading.gaps[number.stop] != SOFT or following.value != number.value + 1:
        return False
    stop = following.stop
    if reading.gaps[stop] != NONE or stop >= len(reading.words) or stop in reading.actors:
        return False
    if stop in reading.numbers:
        return False
    unit = reading.starting("award_unit", stop)
    return not unit and reading.words[stop] not in reading.phrases.closed


def _names_an_attack(reading: Reading, number: Number) -> bool:
    """As in "he shoots, a double": nouns that name an attack on one leg or both as well."""
    return bool(reading.starting("number_or_attack", number.stop - 1))


def bare_name(hit: Hit) -> bool:
    """Whether a name is all there is of a cue."""
    return bool(hit.fillers) and (hit.fillers[0].first, hit.fillers[0].stop) == (hit.first, hit.stop)


def _standing(reading: Reading, award: Award, led: bool, followed: bool, noun: bool) -> float:
    """What the borders tell."""
    first, stop, number = award.first, award.stop, award.number
    opens = reading.gaps[first] != NONE or led or _for_somebody(reading, award)
    # Captions without marks: "two more, fifteen seconds left".
    anew = stop > number.stop and stop in reading.numbers
    closes = reading.gaps[stop] != NONE or followed or award.counted or anew
    if opens and closes:
        return _ALONE
    weight, unit = 0.0, stop > number.stop
    if noun and (closes or not reading.talk.tokens[stop].glued):
        weight += _ALONE
    elif not closes and not (reading.words[stop] in reading.phrases.closed or stop in reading.actors):
        weight += _COUNTED
    if not opens and not unit:
        weight += _PRONOUN
    if number.value == 1 and number.form != "noun" and not closes and not unit:
        weight += _PRONOUN
    return weight


def _for_somebody(reading: Reading, award: Award) -> bool:
    """As in "without being pushed one to blue": points and whose they are are an award anywhere."""
    least = award.stop + (award.number.value == 1)
    return any(
        filler.slot in SIDES and filler.first >= least and reading.named(filler.first)
        for hit in award.cues
        for filler in hit.fillers
    )


def _size(hit: Hit) -> tuple[int, float]:
    return hit.stop - hit.first, abs(hit.entry.weight)
