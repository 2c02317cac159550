"""Calls of the referee and the table: start, stop, restart, end."""

from collections.abc import Sequence

from hikite.claims.said.drafting import draft, once, whole_hits
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.records import Claim

# How long after the end a call to begin opens the next bout, and within what one call explains another.
_NEXT_BOUT_MS = 20_000
_NEAR_MS = 6_000
# A call to go on after a period's end begins the next.
_PERIOD = "period"
# Marks of what is a call only beside others, within so many words.
_SOFT, _ANEW, _AFTER, _BESIDE_RESULT, _BESIDE_END = "soft", "anew", "after", "beside", "ended"
_MARKS, _BESIDE = (_SOFT, _ANEW, _AFTER, _BESIDE_RESULT, _BESIDE_END), 8
_ENDS = ("end", "signal")
# In judo a bell that golden score follows so soon stops the bout and does not end it; it has no periods.
_GOLDEN, _GOES_ON = "golden-score", 12
# A signal begins the bout near the start of the recording only.
_BEGINS_BY_MS = 60_000


def find_stoppages(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a call. ``begin`` is a ``start`` until the bout is under way, then a ``restart``; ``signal``
    (a whistle, a bell) starts the bout before it is."""
    found = sorted(whole_hits(reading, "stoppage", taken), key=lambda hit: hit.first)
    found = [hit for hit in found if reading.points or hit.entry.of != _PERIOD]
    hits = [hit for at, hit in enumerate(found) if _calls(reading, found, at)]
    claims: list[Claim] = []
    begun, ended_ms = False, 0
    for index, hit in enumerate(hits):
        now = reading.talk.tokens[hit.first].start_ms
        fresh = not begun or (ended_ms > 0 and now - ended_ms > _NEXT_BOUT_MS)
        concept = _concept(reading, hit, hits[index + 1 :], fresh)
        if concept == "restart" and claims and _just(claims[-1], now, ("start", "restart")):
            continue
        if concept in ("start", "restart"):
            begun, ended_ms = True, 0
        claim = draft(reading, hit, "stoppage", "stated", concept=concept)
        claim = claim.model_copy(update={"of": None}) if claim.of in _MARKS else claim
        if concept == "end" and _golden_follows(reading, hit.stop):
            concept = "stop"
            claim = claim.model_copy(update={"concept": concept})
        if concept == "end" and claim.of is None:
            ended_ms = now
        if concept == "restart" and claims and (claims[-1].concept, claims[-1].of) == ("end", _PERIOD):
            claim = claim.model_copy(update={"concept": "start", "of": _PERIOD})
        claims.append(claim)
    return tuple(once(claims))


def _calls(reading: Reading, hits: Sequence[Hit], at: int) -> bool:
    """Whether words that may be a call are one beside the calls around them."""
    hit, mark = hits[at], hits[at].entry.of
    before, after = hits[at - 1] if at else None, hits[at + 1] if at + 1 < len(hits) else None
    if mark in (_SOFT, _ANEW):
        stopped = before is not None and before.entry.concept == "stop" and hit.first - before.stop <= _BESIDE
        if stopped or (mark == _ANEW and before is None):
            return False
        return not (after and after.entry.concept == "stop" and after.first == hit.stop)
    if mark == _AFTER:
        return before is not None and before.entry.concept in ("stop", "end") and hit.first - before.stop > 0
    if mark in (_BESIDE_RESULT, _BESIDE_END):
        ends = (one for one in (before, after) if one is not None and one.entry.concept in _ENDS)
        results = reading.hits.get("result", ()) if mark == _BESIDE_RESULT else ()
        told = (one for one in results if one.entry.status is None and one.entry.concept != "-")
        return any(
            one.first - hit.stop <= _BESIDE and hit.first - one.stop <= _BESIDE for one in (*ends, *told)
        )
    return True


def _concept(reading: Reading, hit: Hit, following: Sequence[Hit], fresh: bool) -> str:
    said = hit.entry.concept
    if said == "begin":
        return "start" if fresh else "restart"
    if said in ("whistle", "signal"):
        begins = fresh and reading.talk.tokens[hit.first].start_ms < _BEGINS_BY_MS
        ends = following and following[0].entry.concept == "end" and following[0].first - hit.stop <= _BESIDE
        begins = begins and not ends
        return "start" if begins else "stop" if said == "whistle" else "end"
    return said


def _just(claim: Claim, now: int, concepts: tuple[str, ...]) -> bool:
    return claim.concept in concepts and now - claim.end_ms < _NEAR_MS


def _golden_follows(reading: Reading, stop: int) -> bool:
    """As in "There's the bell. So, golden score."."""
    goldens = (hit for hit in reading.hits.get("clock", ()) if hit.entry.of == _GOLDEN)
    return not reading.points and any(0 <= hit.first - stop <= _GOES_ON for hit in goldens)
