"""Where the bout is and how a thrown one lands; whether the thrower went down too."""

from hikite.claims.said.drafting import phrased
from hikite.claims.said.gaps import NONE
from hikite.claims.said.reading import Reading
from hikite.records import Claim
from hikite.records.spans import tokens_of

# A landing of which only the thrower's part is told.
_UNTOLD = "landing"


def find_places(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Position claims, and landing claims with ``fell`` where the words tell if the thrower went down.

    ``side`` of a landing is who lands, where that one is named right in front ("blue comes down on the hip").
    """
    found = phrased(reading, "landing", "landing", "stated", taken)
    landings = tuple(
        claim.model_copy(update={"side": claim.side or _lands(reading, claim)}) for claim in found
    )
    busy = taken | tokens_of(landings)
    return (*landings, *phrased(reading, "position", "position", "stated", busy))


def _lands(reading: Reading, claim: Claim) -> str | None:
    """Who lands, by a name right in front; of words that tell the thrower's part only, nobody."""
    if claim.concept == _UNTOLD or reading.written[claim.first] != NONE:
        return None
    named = (hit for hit in reading.ending("landing_before", claim.first))
    best = max(named, key=lambda hit: hit.stop - hit.first, default=None)
    return best.side(reading.sides) if best is not None else None
