"""How sure a claim read from a phrase is: what was counted for its make, else for its kind."""

import pytest

from hikite.claims.said.confidences import FITTED, award_confidence, confident
from hikite.records import Claim, ClaimKind, Reason


def claim(kind: ClaimKind, concept: str, read_from: str, confidence: float = 1.0) -> Claim:
    return Claim(
        first=0, stop=1, start_ms=0, end_ms=400, kind=kind, concept=concept, status="stated",
        confidence=confidence, reasons=(Reason(name=read_from),),
    )  # fmt: skip


# A total alone ("he's on four") is less sure than both numbers; an edge surer than a position nobody counted.
def test_makes_of_one_kind_differ():
    pair, total = (confident(claim("stated_score", "score", make)) for make in ("pair", "total"))
    assert 0.5 < total.confidence < pair.confidence < 1.0
    edge, unheard = (confident(claim("position", concept, "said")) for concept in ("edge", "somewhere"))
    assert unheard.confidence < edge.confidence


@pytest.mark.parametrize("kind", [*FITTED, "landing", "score"])
def test_every_kind_has_a_share_of_its_own(kind: ClaimKind):
    assert 0.0 < confident(claim(kind, "never met", "said")).confidence < 1.0


def test_a_claim_with_its_own_confidence_keeps_it():
    assert confident(claim("clock", "clock", "clock", 0.31)).confidence == 0.31


# Log odds: more evidence, more confidence; probabilities all.
def test_an_award_is_as_sure_as_its_evidence():
    told = [award_confidence(weight) for weight in (-5.0, -1.0, 0.0, 2.0, 6.0)]
    assert told == sorted(told)
    assert 0.0 < told[0] < told[-1] <= 1.0
