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
# A signal begins the bout near the start of the recording only.
_BEGINS_BY_MS = 60_000


def find_stoppages(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a call. ``begin`` is a ``start`` until the bout is under way, then a ``restart``; ``signal``
    (a whistle, a bell) starts the bout before it is; ``lift`` (stood up) is a stop where a call to go on
    follows, else a restart."""
    hits = sorted(whole_hits(reading, "stoppage", taken), key=lambda hit: hit.first)
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
        if concept == "end" and hit.entry.of is None:
            ended_ms = now
        claim = draft(reading, hit, "stoppage", "stated", concept=concept)
        if concept == "restart" and claims and (claims[-1].concept, claims[-1].of) == ("end", _PERIOD):
            claim = claim.model_copy(update={"concept": "start", "of": _PERIOD})
        claims.append(claim)
    return tuple(once(claims))


def _concept(reading: Reading, hit: Hit, following: Sequence[Hit], fresh: bool) -> str:
    said = hit.entry.concept
    if said == "begin":
        return "start" if fresh else "restart"
    if said in ("whistle", "signal"):
        begins = fresh and reading.talk.tokens[hit.first].start_ms < _BEGINS_BY_MS
        return "start" if begins else "stop" if said == "whistle" else "end"
    if said == "lift":
        now = reading.talk.tokens[hit.stop - 1].end_ms
        goes_on = following and reading.talk.tokens[following[0].first].start_ms - now < _NEAR_MS
        return "stop" if goes_on and following[0].entry.concept in ("begin", "restart") else "restart"
    return said


def _just(claim: Claim, now: int, concepts: tuple[str, ...]) -> bool:
    return claim.concept in concepts and now - claim.end_ms < _NEAR_MS
