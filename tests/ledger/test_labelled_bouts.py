"""Labelled bouts through the ledger alone, from claims as a careful and as a careless listener gives them."""

import pytest
from gold_claims import FOLDER, Gold, Listener, golds, needs_bouts

from hikite.ledger import keep, load_rulesets
from hikite.records import Bout, Tally

RULESETS = load_rulesets()
CARELESS = {"unknown_side": 0.15, "wrong_status": 0.10, "unordered": True, "dropped": 0.05}


def exact(gold: Gold, bout: Bout) -> bool:
    """Whether both sides' totals are the labelled ones (judo: every class and the penalties)."""
    for side, tally in bout.final.items():
        want = gold["final"][side]
        if isinstance(want, int):
            if tally != Tally(points=want):
                return False
        elif any((getattr(tally, name.replace("-", "_")) or 0) != number for name, number in want.items()):
            return False
    return True


@needs_bouts
@pytest.mark.parametrize("gold", golds() if FOLDER.is_dir() else [], ids=lambda gold: gold["id"])
def test_a_careful_listener_gets_the_final_score(gold: Gold) -> None:
    (bout,) = keep(Listener().hear(gold), RULESETS).bouts
    assert exact(gold, bout)
    assert bout.result.winner == gold["final"]["winner"]


@needs_bouts
def test_a_careless_listener_mostly_gets_the_final_score() -> None:
    # sides unknown 15 %, statuses wrong 10 %, stated scores without sides, 5 % of all claims lost
    right = [
        exact(gold, keep(Listener(seed=seed, **CARELESS).hear(gold), RULESETS).bouts[0])
        for gold in golds()
        for seed in range(2)
    ]
    assert sum(right) / len(right) >= 0.80
