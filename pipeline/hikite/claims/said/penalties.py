"""Penalties and their threats: who is penalised and for what."""

from collections.abc import Iterator, Sequence

from hikite.claims.said.drafting import phrased
from hikite.claims.said.reading import HARD, Reading
from hikite.records import Claim

# "warned for passivity", "caution, red, for fleeing": the second names the reason, not another penalty.
_REASON_WITHIN = 2


def find_penalties(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a penalty; ``side`` is who is penalised."""
    return tuple(_without_reasons(reading, tuple(phrased(reading, "penalty", "penalty", "given", taken))))


def _without_reasons(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    stop = -1
    for claim in claims:
        near = 0 <= claim.first - stop <= _REASON_WITHIN and stop >= 0
        reason = near and claim.side is None and HARD not in reading.gaps[stop : claim.first + 1]
        stop = claim.stop
        if not reason or claim.status != "given":
            yield claim
