"""Points that no action gives at once: what somebody is said to have is what he has in all."""

from hikite.ledger.callings import LIKELY
from hikite.ledger.deeds import DONE, chance
from hikite.ledger.worths import Scales
from hikite.records import Claim, Tally


def in_all(claim: Claim, scales: Scales) -> Claim:
    """The claim; an award of more points than any action gives as a score stated: "blue has five"."""
    if claim.kind != "score" or claim.points is None or claim.side is None or claim.vouched:
        return claim
    most = max((value for value in scales.typical if isinstance(value, int)), default=claim.points)
    if claim.points <= most or chance(claim, *DONE) <= LIKELY:
        return claim
    return claim.model_copy(
        update={
            "kind": "stated_score",
            "concept": "score",
            "points": None,
            "tallies": {claim.side: Tally(points=claim.points)},
            "ordered": claim.told,
            "status": "stated",
            "statuses": {"stated": 1.0},
        }
    )
