"""A win by superiority tells how far somebody was ahead, though it be unsure which lead ends a bout."""

import pytest
from telling import award, call, result, stated, tell, throw

from hikite.ledger import keep, load_rulesets

RULESETS = load_rulesets()


# Sambo until 2020: twelve points (1XM, CINT), later eight (SJ39); without a date either may be meant.
@pytest.mark.parametrize(
    ("by", "red"),
    # The four after twelve to four is doubtful: superiority proves it, a win on points does not.
    [("superiority", 16), ("points", 12)],
)
def test_superiority_proves_the_last_points(by: str, red: int) -> None:
    last = award("red", 4, status="recalled")
    last[0]["statuses"] = {"given": 0.37, "recalled": 0.63}
    before = (
        throw("red", on="back") + award("red", 4),
        award("red", 4),
        throw("blue", on="back") + award("blue", 4),
    )
    acts = (call("start"), *before, stated(red=8, blue=4), award("red", 4), stated(red=12, blue=4))
    acts = (*acts, last, result("red", by))
    (bout,) = keep(tell(*acts, ruleset="sambo.sport.legacy"), RULESETS).bouts
    assert bout.final["red"].points == red
