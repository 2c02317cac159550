"""Who won and how, said, denied or foretold."""

from hikite.claims.said.drafting import phrased
from hikite.claims.said.reading import Reading
from hikite.records import Claim


def find_results(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a phrase."""
    return tuple(phrased(reading, "result", "result", "given", taken))
