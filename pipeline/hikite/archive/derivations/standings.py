"""Who leads, before an event."""

from typing import NamedTuple

from hikite.records import Tally

_CLASSES = ("ippon", "waza_ari", "yuko", "koka")


class Standing(NamedTuple):
    """The score of one side against the other: points where there are points, and the lead's sign."""

    own: int | None = None
    other: int | None = None
    lead: int | None = None
    sign: int | None = None


def standing(score: dict[str, Tally], sides: tuple[str, str], side: str | None) -> Standing:
    """How ``side`` stands; nothing is known of nobody's. No score yet is level.

    In classes the higher class decides and then the number of it; penalties give no lead here, though some
    rules of their time counted them.
    """
    if side not in sides:
        return Standing()
    own, other = (score.get(one, Tally()) for one in (side, sides[side == sides[0]]))
    if own.points is None and other.points is None:
        one, two = _classes(own), _classes(other)
        return Standing(sign=(one > two) - (one < two))
    mine, theirs = own.points or 0, other.points or 0
    return Standing(mine, theirs, mine - theirs, (mine > theirs) - (mine < theirs))


def _classes(tally: Tally) -> tuple[int, ...]:
    return tuple(getattr(tally, name) or 0 for name in _CLASSES)
