"""What a fall tells of the throw right before it: whoever pins threw."""

from hikite.ledger.deeds import DONE, Matter, Pair, chance, lean
from hikite.records import Claim

FALL = "fall"
PINS_MS = 30_000
"""A fall so soon after an award follows from what that was for. Common practice, no source."""
PINS = 0.85
"""P(who pins is who the award right before was for). Common practice, no source."""


def pinned(matter: Matter, claims: dict[int, Claim], sides: tuple[str, str]) -> Matter:
    """The same matter, the last award before a fall, and its deed, leaning to whoever won by that fall."""
    falls = [claims[number] for number in matter.verdicts if claims[number].concept == FALL]
    falls = [claim for claim in falls if chance(claim, *DONE) > 0.5]
    last = max(range(len(matter.calls)), key=lambda at: matter.calls[at].start_ms, default=None)
    if last is None or not falls:
        return matter
    call = matter.calls[last]
    near = [lean(claim, sides) for claim in falls if 0 <= claim.start_ms - call.end_ms <= PINS_MS]
    if not near or call.told or call.vouched:
        return matter
    won = max(near, key=max)
    calls, deeds = list(matter.calls), list(matter.deeds)
    calls[last] = call._replace(sides=_leaning(call.sides, won))
    if call.deed is not None and not (deeds[call.deed].told or deeds[call.deed].vouched):
        deeds[call.deed] = deeds[call.deed]._replace(sides=_leaning(deeds[call.deed].sides, won))
    return matter._replace(calls=tuple(calls), deeds=tuple(deeds))


def _leaning(sides: Pair, won: Pair) -> Pair:
    """The sides, knowing that the one who ``won`` probably did it."""
    one, two = (side * (PINS * win + (1 - PINS) * (1 - win)) for side, win in zip(sides, won, strict=True))
    return one / (one + two), two / (one + two)
