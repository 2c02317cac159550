"""Which award was called for which deed."""

from hikite.ledger.activities import ACTIVITY
from hikite.ledger.deeds import Call, Deed, Matter, agree
from hikite.ledger.doings import LOST_CHALLENGE, STEPS_OUT
from hikite.ledger.worths import Scales

LINK_MS = 22_000
"""An award is called at most so long after what it is for. Common practice, no source."""
UNCOUNTED_S = 2
"""How much longer than its last count and the time since a hold may last. Common practice, no source."""
TOLD_MS, TOLD = 12_000, 0.35
"""An award whose side the words name, so soon after something whose side they do not, fits it at least so
well in this: it tells whose that was. Common practice, no source."""
OTHERS = 0.15
"""An award whose side the words name is for no technique of the other one, where they agree less than this:
it is for the answer. Common practice, no source."""
UPHELD = 0.9
"""P(an award named beside a lost challenge is given for it), whatever else speaks for its being told over."""
OF_MANY, OF_ONE, FIXED = 0.25, 0.08, STEPS_OUT | {LOST_CHALLENGE, ACTIVITY}
"""How well an award fits a deed that never brings so much, and that always brings the same (these do). Common
practice, no source."""
SELDOM = 0.1, 0.1
"""A technique that scores less often than this fits an award so much worse. Common practice, no source."""
AHEAD_MS, AHEAD = (1_500, 3_500), 0.5
"""An award is called at most so long before what it is for is named, or the penalty that it is for; and how
much worse it fits a penalty told only after it. Common practice, no source."""
NEAR_MS = 8_000
"""Two techniques named this close together, one of them paid, were probably one action."""


def link(matter: Matter, scales: Scales) -> Matter:
    """The same matter, each call with its deed and each deed knowing whether it was paid."""
    deeds, calls = list(matter.deeds), []
    taken: set[int] = set()
    for call in matter.calls:
        best, index = 0.04, None
        for at, deed in enumerate(deeds):
            if at in taken or deed.start_ms > call.start_ms + AHEAD_MS[deed.kind == "penalty"]:
                continue
            fit = _fit(call, deed, scales)
            if fit > best:
                best, index = fit, at
        if index is not None and deeds[index].concept == LOST_CHALLENGE:
            call = call._replace(given=(max(UPHELD, *call.given),))
        if index is not None and max(call.given) > 0.3:
            taken.add(index)
            deeds[index] = deeds[index]._replace(paid=True)
            calls.append(call._replace(deed=index))
        else:
            calls.append(call._replace(deed=_first_for(call, calls, deeds)))
    paid = [deed for deed in deeds if deed.paid and deed.kind != "penalty"]
    for at, deed in enumerate(deeds):
        if not deed.paid and deed.kind == "technique" and any(_one_action(deed, other) for other in paid):
            deeds[at] = deed._replace(near_paid=True)
    return matter._replace(deeds=tuple(deeds), calls=tuple(calls))


def _first_for(call: Call, calls: list[Call], deeds: list[Deed]) -> int | None:
    """What the call that this one may take the place of was for, unless that was a penalty."""
    deed = None if call.revises is None else calls[call.revises].deed
    return None if deed is None or deeds[deed].kind == "penalty" else deed


def _one_action(one: Deed, two: Deed) -> bool:
    apart = max(one.start_ms, two.start_ms) - min(one.end_ms, two.end_ms)
    return apart <= NEAR_MS and agree(one.sides, two.sides) > 0.4


def _fit(call: Call, deed: Deed, scales: Scales) -> float:
    """How well an award fits a deed, in [0, 1]: side, value, kind and nearness."""
    late = call.start_ms - deed.end_ms
    if late > LINK_MS:
        return 0.0
    near = float(0.5 ** (max(late, 0) / 8_000))
    if deed.kind == "penalty":
        near *= AHEAD if deed.start_ms > call.end_ms else 1.0
        return near * deed.done * agree(call.sides, deed.sides[::-1]) * _pays(call, deed, scales)
    side = agree(call.sides, deed.sides)
    if call.told and side < OTHERS and deed.kind == "technique":
        return 0.0
    if call.told and not deed.told and late <= TOLD_MS:
        side = max(side, TOLD)
    if deed.kind == "hold":
        values = {scales.hold(seconds)[0] for seconds in _lengths(deed, late)}
        brings = {hold.gives for hold in scales.rules.holds}
        open_ended = deed.seconds is None and call.value != "ippon" and call.value in {None, *brings}
        fits = 1.0 if call.value in values else 0.35 if open_ended else 0.05
        return near * side * fits * deed.done
    worth = scales.technique(deed.concept, deed.landing, deed.fell)
    odds = worth.values or {}
    least = OF_ONE if deed.concept in FIXED else OF_MANY
    fits = 0.5 if call.value is None else min(1.0, least + 2 * odds.get(call.value, 0.0)) if odds else 0.1
    return near * side * fits * deed.done * (1.0 if worth.scores >= SELDOM[0] else SELDOM[1])


def _lengths(hold: Deed, late_ms: int) -> tuple[int | None, ...]:
    """The seconds counted, and those that ran on until the award where nobody said that the hold was over."""
    if hold.seconds is None or hold.ended:
        return (hold.seconds,)
    return hold.seconds, hold.seconds + max(late_ms, 0) // 1000 + UNCOUNTED_S


def _pays(call: Call, deed: Deed, scales: Scales) -> float:
    """Whether a rung of the penalty's ladder gives the value called, alone or on top of one action."""
    ladder = next((ladder for ladder in scales.rules.ladders if ladder.concept == deed.concept), None)
    if ladder is None or not scales.rules.by_points:
        return 0.05
    if deed.points and call.value == deed.points:
        return 1.0
    gives = [step.gives for step in ladder.steps if isinstance(step.gives, int)]
    if call.value is None or call.value in gives:
        return 0.8
    if isinstance(call.value, int) and call.value not in scales.typical:
        return 0.9 if any(call.value - given in scales.typical for given in gives if given) else 0.05
    return 0.5 if deed.concept == "passivity" and call.value == 1 else 0.05
