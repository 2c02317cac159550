"""How often a draft claim of each make is right."""

from math import exp

from hikite.records import Claim

# Shares of claims found right in the labelled training bouts, clean and recogniser text together, rounded
# down; by kind, then by what the claim was read from or by its concept.
_SHARES: dict[str, dict[str, float]] = {
    "clock": {"clock": 0.94, "countdown": 0.85, "foreseen": 0.9, "": 0.88},
    "hold": {"counted": 0.9, "named": 0.85, "": 0.85},
    "landing": {"": 0.85},
    "penalty": {"": 0.95},
    "position": {"edge": 0.9, "standing": 0.9, "ground": 0.78, "turtle": 0.9, "": 0.6},
    "result": {"": 0.93},
    "score": {"": 0.8},
    "stated_score": {"same": 0.85, "total": 0.75, "listed": 0.8, "": 0.94},
    "stoppage": {"restart": 0.72, "end": 0.85, "": 0.9},
}
# An award's evidence, in log odds, to its confidence; fitted by eye to the same bouts.
_AWARD_AT_NOTHING, _AWARD_SLOPE = 1.5, 1.0


def confident(claim: Claim) -> Claim:
    """The claim with the confidence of its make; one that has its own keeps it."""
    if claim.confidence != 1.0:
        return claim
    shares = _SHARES[claim.kind]
    read_from = claim.reasons[0].name if claim.reasons else ""
    share = shares.get(read_from, shares.get(claim.concept, shares[""]))
    return claim.model_copy(update={"confidence": share})


def award_confidence(weight: float) -> float:
    """The confidence of an award of points from the evidence for it."""
    return round(1.0 / (1.0 + exp(-(_AWARD_AT_NOTHING + _AWARD_SLOPE * weight))), 3)
