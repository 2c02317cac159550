"""What is told of one deed more than once: a hold's counts and its end, a penalty said again."""

from hikite.ledger.deeds import Deed, agree, joined

HOLD_MS, AGAIN_MS, SAME_MS, STOPPED_MS = 25_000, 10_000, 6_000, 20_000
"""How far apart the counts of a hold lie at most, its end told twice, a penalty said twice, and one told of
while play has not gone on. Common practice, no source; read off the labelled bouts."""
STRAYS_S, SAME_LENGTH_S = 4.0, 2
"""So far a count aloud strays from the clock, and two lengths told of one hold differ. Common practice, no
source."""
ALIKE = 0.3
"""Deeds are of one side, as far as that is known, if it is so likely."""
UNNAMED_HOLDS = frozenset({"osaekomi", "hold-down"})
"""What a hold is called whose name is not told: the calls for any."""


def joined_deeds(deed: Deed, again: Deed) -> Deed:
    """One deed of two that tell of the same thing."""
    return deed._replace(
        claims=(*deed.claims, *again.claims),
        sides=joined(deed.sides, again.sides),
        done=max(deed.done, again.done),
        told=deed.told or again.told,
        end_ms=again.end_ms,
    )


def named_twice(deed: Deed, again: Deed) -> Deed:
    """One deed of two names said in one breath; whose it is was judged of both together."""
    return joined_deeds(deed, again)._replace(sides=deed.sides)


def held_on(hold: Deed, later: Deed) -> Deed:
    """The hold with a later word of it."""
    return joined_deeds(hold, later)._replace(
        seconds=max(hold.seconds or 0, later.seconds or 0) or None,
        ended=later.ended,
        concept=later.concept if hold.concept in UNNAMED_HOLDS else hold.concept,
    )


def goes_on(hold: Deed, later: Deed) -> bool:
    """Whether a later word of a hold is of this one: on time, of a side that may be the same, not over."""
    near = later.start_ms - hold.end_ms <= HOLD_MS and agree(hold.sides, later.sides) > ALIKE
    on = not hold.ended or _over_again(hold, later) or _counted_on(hold, later)
    return hold.kind == "hold" and near and on


def _over_again(hold: Deed, later: Deed) -> bool:
    """Whether a hold's end is the last one's told once more: "six, and out! … toketa at six"."""
    if not later.ended or later.start_ms - hold.end_ms > AGAIN_MS:
        return False
    return later.seconds is None or abs(later.seconds - (hold.seconds or 0)) <= SAME_LENGTH_S


def _counted_on(hold: Deed, later: Deed) -> bool:
    """Whether a count goes on from a hold as a clock would: "five … a leg between … ten" was not broken."""
    if hold.seconds is None or later.seconds is None or later.seconds <= hold.seconds:
        return False
    return abs((later.start_ms - hold.end_ms) / 1000 - (later.seconds - hold.seconds)) <= STRAYS_S


def same_penalty(last: Deed, fresh: Deed, repeats: int | None, played_ms: int) -> bool:
    """Whether a penalty is the last one said again; a person's is one of its own unless they say so.

    ``played_ms`` is when something of the bout itself was told last.
    """
    if fresh.vouched:
        return repeats in last.claims
    alike = last.kind == "penalty" and last.concept == fresh.concept
    alike = alike and (fresh.ordinal is None or fresh.ordinal == last.ordinal)
    within = SAME_MS if played_ms > last.start_ms else STOPPED_MS
    return alike and fresh.start_ms - last.end_ms <= within and agree(last.sides, fresh.sides) > ALIKE


def said_again(last: Deed, again: Deed) -> Deed:
    """The penalty with what was said of it once more."""
    points = last.points if again.points is None else again.points
    return joined_deeds(last, again)._replace(points=points, vouched=last.vouched or again.vouched)
