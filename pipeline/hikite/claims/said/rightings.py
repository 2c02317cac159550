"""Whose an award or penalty is after all, where the words behind it put it right."""

from hikite.claims.said.awards import bare_name, withdrawn
from hikite.claims.said.gaps import NONE
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.wording import Group

# So few words behind an award or penalty whose it was is taken back, and so many later it is told anew. Set
# by hand.
_SLIP_WITHIN, _RIGHTED_WITHIN = 4, 14


def righted(reading: Reading, group: Group, stop: int, side: str) -> str:
    """As in "waza-ari to blue. To white! I beg your pardon.": the other side, where the words behind say that
    the one named was a slip; ``group`` are the words that name it."""
    before = [*withdrawn(reading, stop), *_led_to(reading, group, stop)]
    at = max((hit.stop for hit in before), default=stop)
    for hit in reading.starting(group, at):
        meant = hit.side(reading.sides)
        ends = (before or reading.gaps[at] != NONE) and reading.gaps[hit.stop] != NONE
        if ends and meant is not None and (before or withdrawn(reading, hit.stop)):
            return meant
    return _told_otherwise(reading, stop) or side


def _told_otherwise(reading: Reading, stop: int) -> str | None:
    """As in "shido, Ana, for... no, sorry, the arm points the other way. It's Bea's.": whose it is after all,
    where words that take it back stand close behind and nothing else is called before."""
    near = range(stop, stop + _SLIP_WITHIN)
    low = next((hit.stop for at in near for hit in reading.starting("award_withdrawn", at)), None)
    if low is None:
        return None
    called = {hit.first for hit in reading.hits.get("penalty", ())} | set(reading.classes)
    for at in range(low, low + _RIGHTED_WITHIN):
        if at in called:
            return None
        if (meant := reading.whose(reading.starting("righted", at))) is not None:
            return meant
    return None


def replaced(reading: Reading, stop: int, side: str) -> bool:
    """As in "four to red! No! Four to blue!": whether words that take it back lead to the other's."""
    for hit in reading.starting("award_withdrawn", stop):
        # An article may stand between: "No, a four to blue".
        number = reading.numbers.get(hit.stop) or reading.numbers.get(hit.stop + 1)
        named = reading.starting("award_after", number.stop) if number is not None else ()
        if any((meant := one.side(reading.sides)) is not None and meant != side for one in named):
            return True
    return False


def _led_to(reading: Reading, group: Group, stop: int) -> list[Hit]:
    """As in "to red no what am I saying to blue": words that take one name back and lead on to another."""
    if reading.gaps[stop] == NONE:
        return []
    return [
        hit
        for hit in reading.starting("award_withdrawn", stop)
        if any(not bare_name(one) for one in reading.starting(group, hit.stop))
    ]
