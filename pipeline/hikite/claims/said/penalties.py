"""Penalties and their threats: who is penalised, which, and the points said to go across."""

from hikite.claims.said.drafting import phrased
from hikite.claims.said.reading import Reading
from hikite.records import Claim


def find_penalties(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a phrase."""
    return tuple(phrased(reading, "penalty", "penalty", "given", taken))
