"""Where the bout is and how a thrown one lands; whether the thrower went down too."""

from hikite.claims.said.drafting import phrased
from hikite.claims.said.reading import Reading
from hikite.records import Claim


def find_places(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Position claims, and landing claims with ``fell`` where the words tell if the thrower went down."""
    landings = tuple(phrased(reading, "landing", "landing", "stated", taken))
    busy = taken | {index for claim in landings for index in range(claim.first, claim.stop)}
    return (*landings, *phrased(reading, "position", "position", "stated", busy))
