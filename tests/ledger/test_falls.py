"""Whoever pins threw: a fall tells whose the award right before it was."""

import pytest
from telling import Told, award, call, result, tell, throw

from hikite.ledger import keep, load_rulesets

RULESETS = load_rulesets()


def unsure(told: list[Told], red: float) -> list[Told]:
    """The same claims, red's with so much probability."""
    return [one | {"sides": {"red": red, "blue": 1 - red}, "side": "red"} for one in told]


@pytest.mark.parametrize(
    ("apart_ms", "points"),
    [
        (15_000, (0, 5)),
        # Long after the throw it tells nothing of it.
        (60_000, (5, 0)),
    ],
)
def test_a_fall_tells_whose_the_throw_was(apart_ms: int, points: tuple[int, int]) -> None:
    thrown = unsure(throw("red", "suplex"), 0.6) + unsure(award("red", 5), 0.6)
    won = [one | {"sides": {"red": 0.3, "blue": 0.7}} for one in result("blue", "fall")]
    told = tell(call("start"), thrown, won, ruleset="uww.gr", apart_ms=apart_ms)
    (bout,) = keep(told, RULESETS).bouts
    assert (bout.final["red"].points, bout.final["blue"].points) == points
