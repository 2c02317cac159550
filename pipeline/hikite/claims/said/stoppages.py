"""Calls of the referee and the table: start, stop, restart, end."""

from hikite.claims.said.drafting import draft, longest_first
from hikite.claims.said.reading import Reading
from hikite.records import Claim

# A call to begin begins the bout once; after that it resumes it.
_BEGIN = "begin"
_AFTER_END_MS = 20_000


def find_stoppages(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a call; a call to begin is a ``start`` until the bout is under way, then a ``restart``."""
    spoken = longest_first(reading.hits.get("stoppage", ()), taken)
    begun, ended_ms = False, None
    claims: list[Claim] = []
    for hit in sorted(spoken, key=lambda hit: hit.first):
        concept = hit.entry.concept
        now = reading.talk.tokens[hit.first].start_ms
        if concept == _BEGIN:
            fresh = not begun or (ended_ms is not None and now - ended_ms > _AFTER_END_MS)
            concept = "start" if fresh else "restart"
        if concept in ("start", "restart"):
            begun, ended_ms = True, None
        if concept == "end" and hit.entry.of is None:
            ended_ms = now
        claims.append(draft(reading, hit, "stoppage", "stated", concept=concept))
    return tuple(claims)
