"""How often a draft claim of each make is right."""

import tomllib
from functools import cache
from importlib.resources import files
from math import exp

from hikite.records import Claim

FITTED = ("clock", "hold", "penalty", "position", "result", "stated_score", "stoppage")
"""The kinds whose shares ``tests/fits/shares.py`` counts."""

# Too few are labelled to count; read over by hand, three in four told who fell and how.
_LANDING = 0.75
# Of an award said in passing, without any evidence.
_SCORE = 0.8
# An award's evidence, in log odds, to its confidence; fitted by eye to the training bouts.
_AWARD_AT_NOTHING, _AWARD_SLOPE = 1.5, 1.0


def make_of(claim: Claim) -> str:
    """What a claim was read from, where its reader tells, else what it is of."""
    read_from = claim.reasons[0].name if claim.reasons else ""
    return read_from if read_from not in ("", "said") else claim.concept


def confident(claim: Claim) -> Claim:
    """The claim with the confidence of its make; one that has its own keeps it."""
    if claim.confidence != 1.0:
        return claim
    shares = _shares()[claim.kind]
    return claim.model_copy(update={"confidence": shares.get(make_of(claim), shares[""])})


def award_confidence(weight: float) -> float:
    """The confidence of an award of points from the evidence for it."""
    return round(1.0 / (1.0 + exp(-(_AWARD_AT_NOTHING + _AWARD_SLOPE * weight))), 3)


@cache
def _shares() -> dict[str, dict[str, float]]:
    counted = tomllib.loads((files("hikite.claims.said") / "shares.toml").read_text("utf-8"))
    return counted | {"landing": {"": _LANDING}, "score": {"": _SCORE}}
