"""What the two have after a penalty was told: "Warning to both. One each.", "Two for Ana, one for Bea."."""

from hikite.claims.said.drafting import PSEUDO, draft
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.records import Claim

# Nobody has more, and so many words before it the penalty was told.
_HIGHEST, _WITHIN = 3, 14
_SAME, _SIDES = "same", "sides"


def fault_each(reading: Reading, hit: Hit) -> Claim | None:
    """The penalties told again where "one each" counts those just told and no points; else None.

    So does "two for blue, one for white" where no points are counted.
    """
    counted = (_SAME,) if reading.points else (_SAME, _SIDES)
    bare = hit.entry.concept in counted and not hit.entry.of and not reading.classes.keys() & _inside(hit)
    if not bare or not hit.values or not 0 < max(hit.values) <= _HIGHEST:
        return None
    low = max(0, hit.first - _WITHIN)
    told = [
        one
        for one in reading.hits.get("penalty", ())
        if low <= one.first and one.stop <= hit.first and one.entry.concept != PSEUDO
    ]
    if not told or _scored(reading, told[-1].stop, hit.first):
        return None
    return draft(reading, hit, "penalty", "recalled", concept=told[-1].entry.concept)


def _inside(hit: Hit) -> set[int]:
    return set(range(hit.first, hit.stop))


def _scored(reading: Reading, first: int, stop: int) -> bool:
    """Whether points or a score are told in between."""
    return any(first <= at < stop for at in (*reading.numbers, *reading.classes))
