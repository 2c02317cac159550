"""What the two have after a penalty was told: "Warning to both. One each.", "Two for Ana, one for Bea."."""

from hikite.claims.said.drafting import PSEUDO, draft
from hikite.claims.said.matching import SIDES, Filler, Hit
from hikite.claims.said.reading import Reading
from hikite.records import Claim

# Nobody has more, and so many words before it the penalty was told.
_HIGHEST, _WITHIN = 3, 14
_SAME, _SIDES, _TOTAL = "same", "sides", "total"
# "That's her second", after a penalty; "a card each", so few words from a score that both have.
_NTH, _EACH, _BESIDE = "nth", "each", 2


def fault_each(reading: Reading, hit: Hit) -> Claim | None:
    """The penalties told again where "one each" counts those just told and no points; else None.

    So does "two for blue, one for white" where no points are counted.
    """
    counted = (_SAME,) if reading.points else (_SAME, _SIDES)
    bare = hit.entry.concept in counted and not hit.entry.of and not reading.classes.keys() & _inside(hit)
    if not bare or not hit.values or not 0 < max(hit.values) <= _HIGHEST:
        return None
    told = _told(reading, hit)
    return None if told is None else draft(reading, hit, "penalty", "recalled", concept=told.entry.concept)


def faults_had(reading: Reading, hit: Hit) -> Hit | None:
    """The hit as the score of penalties that it is; None where its words count something else.

    "That's her second" counts the penalty told before it; "a half each, a card each" gives no card.
    """
    how = hit.entry.concept
    if how == _EACH:
        return _as(hit, _SAME, hit.fillers) if _beside_another(reading, hit) else None
    if how != _NTH:
        return hit
    told = _told(reading, hit)
    if told is None:
        return None
    side = told.side(reading.sides)
    whose = (Filler(SIDES[0], hit.first, hit.first, name=side),) if side else ()
    counted = (one._replace(slot="<n>") if one.slot == "<nth>" else one for one in hit.fillers)
    return _as(hit, _TOTAL, (*whose, *counted))


def _as(hit: Hit, how: str, fillers: tuple[Filler, ...]) -> Hit:
    return hit._replace(entry=hit.entry.model_copy(update={"concept": how}), fillers=fillers)


def _beside_another(reading: Reading, hit: Hit) -> bool:
    """Whether a score that both have is told right before or right after."""
    scores = (one for one in reading.hits.get("tally", ()) if one.entry.concept == _SAME)
    return any(0 <= hit.first - one.stop <= _BESIDE or 0 <= one.first - hit.stop <= _BESIDE for one in scores)


def _told(reading: Reading, hit: Hit) -> Hit | None:
    """The penalty told before it, if no score was since."""
    low = max(0, hit.first - _WITHIN)
    told = [
        one
        for one in reading.hits.get("penalty", ())
        if low <= one.first and one.stop <= hit.first and one.entry.concept != PSEUDO
    ]
    return None if not told or _scored(reading, told[-1].stop, hit.first) else told[-1]


def _inside(hit: Hit) -> set[int]:
    return set(range(hit.first, hit.stop))


def _scored(reading: Reading, first: int, stop: int) -> bool:
    """Whether points or a score are told in between."""
    return any(first <= at < stop for at in (*reading.numbers, *reading.classes))
