"""Penalties and their threats: who is penalised and for what."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from hikite.claims.said.askings import answered
from hikite.claims.said.awards import apart
from hikite.claims.said.drafting import PSEUDO, draft, once, whole_hits
from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.matching import SIDES, Hit
from hikite.claims.said.ordinals import counted, further, of_the_other
from hikite.claims.said.reading import Reading
from hikite.claims.said.rightings import righted
from hikite.records import Claim
from hikite.records.marks import BOTH, counted_as

# "warned for passivity", "caution, red, for fleeing": the second names the reason, not another penalty;
# so many words later still where a word for a reason leads to it, or the sport has no such penalty.
_REASON_WITHIN, _NAMED_WITHIN, _GIVEN_WITHIN = 2, 6, 10
# So many words before a penalty the referee turned to whom it is given at most.
_TOWARDS_WITHIN = 24
# The mark of a bare ordinal ("second one for Ana"), and so many words after a judo score it counts scores.
_NTH, _SCORED_WITHIN = "nth", 8
# The mark of one that counts a penalty only where play was stopped so few words before, for no other.
_STOPPED, _STOPPED_WITHIN = "nth-stopped", 14
# "Penalised" is whatever penalty its words name ("no caution coming"), else the sport's lightest.
_PENALISED = "penalised"
_REASON = "passivity"
# Whoever is sent off is told so, not why.
_SENT_OFF = ("hansoku-make", "disqualification")
_LIGHTEST = {True: "warning", False: "shido"}
_OPEN = (_PENALISED, _LIGHTEST[True], PSEUDO)
# What other sports call their lightest is judo's shido, whoever says it.
_LIGHT = {True: (_LIGHTEST[True],), False: (_LIGHTEST[True], "remark")}


def find_penalties(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a penalty; ``side`` is who is penalised."""
    said = (draft(reading, hit, "penalty", "given") for hit in whole_hits(reading, "penalty", taken))
    named = (_withdrawn(reading, _named(reading, claim)) for claim in said if not _of_a_score(reading, claim))
    told = (further(reading, claim) for claim in named)
    claims = once(sorted(told, key=lambda claim: claim.first))
    named = (one for claim in claims for one in _against(reading, claim, taken))
    against = list(of_the_other(reading, named))
    return tuple(counted(reading, claim) for claim in _parted(reading, _without_reasons(reading, against)))


def _parted(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    """The claims, none going on into the next: of "shido red shido" red is named but once."""
    for claim, following in zip_longest(claims, claims[1:]):
        if following is not None and claim.first < following.first < claim.stop:
            claim = claim.model_copy(update=reading.talk.span(claim.first, following.first))
        yield claim


def _named(reading: Reading, claim: Claim) -> Claim:
    """The claim of a penalty left open, under what it is called; judo's warnings are shidos."""
    if claim.concept not in (_PENALISED, *_LIGHT[reading.points]):
        return claim
    called = (
        hit.entry.concept
        for hit in reading.hits.get("penalty", ())
        if claim.first <= hit.first and hit.stop <= claim.stop and hit.entry.concept not in _OPEN
    )
    lightest = _LIGHTEST[reading.points]
    concept = lightest if claim.concept != _PENALISED else next(called, lightest)
    return claim.model_copy(
        update={"concept": concept, "of": None if claim.of in (_NTH, _STOPPED) else claim.of}
    )


def _withdrawn(reading: Reading, claim: Claim) -> Claim:
    """As in "that's hansoku-make, is it, no, the referee lets it go": a penalty asked for and not given."""
    back = reading.starting("penalty_withdrawn", claim.stop)
    return claim.model_copy(update={"status": "denied"}) if back else claim


def _of_a_score(reading: Reading, claim: Claim) -> bool:
    """As in "yuko again! Second one for Ana": a bare ordinal counts the judo score just called."""
    if claim.of == _STOPPED and not _stopped(reading, claim):
        return True
    if claim.of not in (_NTH, _STOPPED):
        return False
    low = claim.first - _SCORED_WITHIN
    return any(low <= score.stop <= claim.first for score in reading.classes.values())


def _stopped(reading: Reading, claim: Claim) -> bool:
    """As in "Stops it. Hand on the leg. That's number two.": play was stopped, and no penalty told since."""
    low = claim.first - _STOPPED_WITHIN
    told = (*reading.hits.get("penalty", ()), *reading.hits.get("result", ()))
    stops = [hit for hit in reading.hits.get("stoppage", ()) if hit.entry.concept == "stop"]
    return any(low <= hit.first and hit.stop <= claim.first for hit in stops) and not any(
        low <= hit.first and hit.stop <= claim.first for hit in told
    )


def _against(reading: Reading, claim: Claim, taken: frozenset[int]) -> tuple[Claim, ...]:
    """The claim with the competitor named beside it ("shido, blue"), or one of each ("a shido each").

    A name that something else is said of (``taken``) is not its.
    """
    if claim.attributes == (BOTH,):
        return _of_both(reading, claim)
    paid = bool(reading.ending("penalty_paid", claim.first))
    if claim.side is not None:
        meant = righted(reading, "penalty_after", claim.stop, claim.side)
        return (claim.model_copy(update={"side": _other(reading, meant) if paid else meant}),)
    for hit in _naming(reading, claim, taken):
        whole = _named_by(reading, claim, hit, paid)
        if hit.entry.who == "both" and claim.status == "given":
            return _of_both(reading, whole)
        if whole.side is not None:
            return (whole,)
    return (answered(reading, claim),)


def _naming(reading: Reading, claim: Claim, taken: frozenset[int]) -> list[Hit]:
    """The words that may name who is penalised, longest first: behind it, else in front of it."""
    following = reading.starting("penalty_after", claim.stop)
    after = [
        hit
        for hit in following
        if reading.gaps[claim.stop] != HARD
        and (len(hit.fillers) < hit.stop - hit.first or _ends(reading, hit))
    ]
    before = [
        hit for hit in reading.ending("penalty_before", claim.first) if reading.written[claim.first] == NONE
    ]
    known = any(hit.side(reading.sides) or hit.entry.who == "both" for hit in before)
    after = after or ([] if known else apart(reading, following))
    before = before or ([] if after else _towards(reading, claim))
    free = (hit for hit in (*after, *before) if taken.isdisjoint(range(hit.first, hit.stop)))
    return sorted(free, key=lambda hit: hit.first - hit.stop)


def _named_by(reading: Reading, claim: Claim, hit: Hit, paid: bool) -> Claim:
    """The claim with the words beside it and the side they name; ``paid``: they name who gets the point."""
    side = hit.side(reading.sides)
    if side is not None and hit.first >= claim.stop:
        side = righted(reading, "penalty_after", hit.stop, side)
        side = _other(reading, side) if paid else side
    first = claim.first if hit.stop < claim.first else min(claim.first, hit.first)
    stop = claim.stop if reading.gaps[claim.stop] == HARD else max(claim.stop, hit.stop)
    return claim.model_copy(update={**reading.talk.span(first, stop), "side": side})


def _towards(reading: Reading, claim: Claim) -> list[Hit]:
    """As in "Something for white, for holding the sleeve end. That's a shido.": whom the referee turned to
    last, where nobody else is named since."""
    since: set[str | None] = set()
    for stop in range(claim.first, max(claim.first - _TOWARDS_WITHIN, 0), -1):
        found = [hit for hit in reading.ending("penalty_towards", stop) if hit.side(reading.sides)]
        if found:
            return found if since <= {found[0].side(reading.sides)} else []
        if reading.named(stop - 1) and reading.actors[stop - 1].side in reading.sides:
            since.add(reading.actors[stop - 1].side)
    return []


def _other(reading: Reading, side: str) -> str:
    """As in "a point for passivity to blue": who is named gets the point, the other one is penalised."""
    return reading.other(side)


def _of_both(reading: Reading, claim: Claim) -> tuple[Claim, ...]:
    """The claim for either side; of "a shido each" each has one, given now or before."""
    each = any(reading.starting("count_each", at) for at in range(max(claim.first - 1, 0), claim.stop))
    both = (BOTH, counted_as(1)) if each else (BOTH,)
    if claim.status != "given":
        return (claim.model_copy(update={"attributes": ()}),)
    return tuple(claim.model_copy(update={"side": side, "attributes": both}) for side in reading.sides)


def _ends(reading: Reading, hit: Hit) -> bool:
    """A bare name after a comma belongs here only if its clause ends: "a warning, red turns in" does not."""
    bare = len(hit.fillers) == 1 and hit.fillers[0].slot in SIDES and hit.fillers[0].stop == hit.stop
    return not bare or reading.gaps[hit.first] == NONE or reading.gaps[hit.stop] != NONE


def _without_reasons(reading: Reading, claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """The claims without those that give the reason of the one before; whose the reason is, that one is.

    "A remark for passivity for blue" is one remark, against blue.
    """
    kept: list[Claim] = []
    last: Claim | None = None
    for claim, following in zip_longest(claims, claims[1:]):
        if following is not None and _names_reason(reading, claim, following):
            continue
        if last is None or not _gives_reason(reading, last, claim):
            kept.append(claim)
        elif claim.side is not None:
            if _tells_whose(kept[-1], last, claim):
                kept[-1] = kept[-1].model_copy(update={"side": claim.side})
            elif claim.concept != _REASON or claim.side != kept[-1].side:
                kept.append(claim)
        last = claim
    return tuple(kept)


def _names_reason(reading: Reading, claim: Claim, following: Claim) -> bool:
    """As in "non-combativity, shido to both": in judo the reason has no penalty of its own.

    Elsewhere one said of nobody is that of the penalty behind: "passivity, that's a warning to blue".
    """
    near = _follows(reading, claim, following, _NAMED_WITHIN if reading.points else _GIVEN_WITHIN)
    apart = claim.side is None and following.first > claim.stop
    reason = claim.concept == _REASON and following.concept != _REASON
    return near and reason and (apart or not reading.points)


def _gives_reason(reading: Reading, last: Claim, claim: Claim) -> bool:
    """As in "caution to Ana, her first, for passivity": farther off where a word for a reason leads to it, or
    judo has none."""
    led = bool(reading.ending("penalty_reason", claim.first))
    led = led or (not reading.points and claim.concept == _REASON and claim.side is None)
    within = _GIVEN_WITHIN if led else _REASON_WITHIN
    sent_off = last.status == "given" and claim.concept in _SENT_OFF
    return claim.status == "given" and not sent_off and _follows(reading, last, claim, within)


def _follows(reading: Reading, last: Claim, claim: Claim, within: int) -> bool:
    """Whether a claim comes at most so many words behind another in its statement; they may share a name:
    of "warning blue passivity" blue is in both."""
    near = last.first < claim.first <= last.stop + within
    return near and HARD not in reading.gaps[last.stop : claim.first + 1]


def _tells_whose(penalty: Claim, last: Claim, reason: Claim) -> bool:
    """Whether the side of a reason one word behind the last claim is that of the penalty."""
    beside = reason.first - last.stop == 1 and not reason.attributes
    return beside and penalty.side is None and penalty.status == "given"
