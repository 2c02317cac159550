"""What is more than any action gives is what somebody has in all."""

import pytest

from hikite.ledger import load_rulesets
from hikite.ledger.in_all import in_all
from hikite.ledger.worths import scales
from hikite.records import Claim

RULESETS = load_rulesets()


def award(points: int, **more: object) -> Claim:
    told = {"first": 0, "stop": 1, "start_ms": 0, "end_ms": 500, "kind": "score", "concept": "points"}
    status = {"status": "given", "statuses": {"given": 1.0}, "side": "blue", "sides": {"blue": 1.0}}
    return Claim.model_validate({**told, **status, "points": points, **more})


# The most one action gives: four in sport sambo (FIAS rules), five in freestyle (UWW rules).
@pytest.mark.parametrize(
    ("rules", "points", "kind"),
    [
        ("sambo.sport.2020", 4, "score"),
        ("sambo.sport.2020", 5, "stated_score"),
        ("uww.fs", 5, "score"),
        ("uww.fs", 6, "stated_score"),
    ],
)
def test_more_than_an_action_gives_is_a_score_stated(rules: str, points: int, kind: str) -> None:
    book = RULESETS[rules]
    heard = in_all(award(points), scales(book, RULESETS.actions[book.actions]))
    assert heard.kind == kind
    assert [tally.points for tally in heard.tallies.values()] == ([points] if kind != "score" else [])


@pytest.mark.parametrize(
    "claim", [award(5, vouched=True), award(5, status="denied", statuses={"denied": 1.0})]
)
def test_what_a_person_vouches_for_or_nobody_gave_stays(claim: Claim) -> None:
    book = RULESETS["sambo.sport.2020"]
    assert in_all(claim, scales(book, RULESETS.actions[book.actions])) == claim
