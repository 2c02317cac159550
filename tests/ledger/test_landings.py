"""What a deed without an award is worth: by a landing that was told, not by one that is supposed."""

import pytest
from telling import Told, call, tell, throw

from hikite.ledger import keep, load_rulesets

RULESETS = load_rulesets()
COMBAT = "sambo.combat.2020"


def red(*told: list[Told], ruleset: str) -> int | None:
    """Red's points in the end."""
    (bout,) = keep(tell(call("start"), *told, ruleset=ruleset), RULESETS).bouts
    return bout.final["red"].points


# SM-01: order 892 of the Russian Ministry of Sport, art. 35: on the side, the thrower up, gives 4.
def test_a_supposed_landing_scores_nothing() -> None:
    deed, landing = throw("red", "o-goshi", "side", fell=False)
    assert red([deed, landing], ruleset="sambo.sport.2020") == 4
    assert red([deed, landing | {"status": "supposed"}], ruleset="sambo.sport.2020") == 0


# SC-01, the same order: a blow that puts the opponent down is scored by how he lands.
def test_a_blow_scores_by_the_landing_alone() -> None:
    assert red(throw("red", "kick", "side", fell=False), ruleset=COMBAT) == 4
    assert red(throw("red", "kick"), throw("red", "punch"), ruleset=COMBAT) == 0
    assert red(throw("red", "punch"), ruleset="sambo.sport.2020") == 0


# Where blows are forbidden one named in passing brings nothing.
@pytest.mark.parametrize(
    "ruleset", ["nfhs.2024", "ncaa.2023", "uww.grappling", "ibjjf", "belt.2013", "uww.fs"]
)
def test_a_blow_scores_nowhere_else(ruleset: str) -> None:
    assert red(*[throw("red", "punch")] * 3, ruleset=ruleset) == 0
