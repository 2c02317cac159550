"""Worked cases of belt wrestling, kurash and wrestling in three periods, from the sources named at each."""

import pytest
from telling import Told, award, call, fault, stated, tell, throw

from hikite.ledger import keep, load_rulesets
from hikite.records import Bout

RULESETS = load_rulesets()


def bout_of(ruleset: str, *acts: list[Told]) -> Bout:
    (bout,) = keep(tell(call("start"), *acts, ruleset=ruleset), RULESETS).bouts
    return bout


# USA Wrestling, alysh page: 1 (knee, buttocks), 2 (side, hip), 6 (back); first to six wins.
@pytest.mark.parametrize(("on", "points"), [("knees", 1), ("side", 2), ("back", 6)])
def test_alysh_throws(on: str, points: int) -> None:
    bout = bout_of("alysh", throw("red", on=on) + award("red", points))
    assert bout.final["red"].points == points
    assert (bout.result.winner, bout.result.by) == ("red", "total-victory" if points == 6 else "points")


def test_alysh_ends_at_six() -> None:
    sides = [throw("red", on="side") + award("red", 2)] * 3
    bout = bout_of("alysh", *sides, stated(red=6, blue=0), throw("blue", on="side") + award("blue", 2))
    assert (bout.final["red"].points, bout.final["blue"].points) == (6, 0)


# Rules note of the 2013 university games: a lead of five is superiority; three cautions put out.
def test_belt_wrestling_ends_at_a_lead_of_five() -> None:
    back = throw("blue", on="back") + award("blue", 4)
    bout = bout_of("belt.2013", back, throw("blue", on="chest") + award("blue", 1))
    assert (bout.final["blue"].points, bout.result.winner, bout.result.by) == (5, "blue", "superiority")


def test_belt_wrestling_third_caution() -> None:
    bout = bout_of("belt.2013", *[fault("red", "caution")] * 3)
    assert (bout.result.winner, bout.result.by) == ("blue", "disqualification")


# Kurash guides of 2015 and 2018: two yonbosh are halal, chala never adds up, the third penalty puts out.
def test_kurash() -> None:
    bout = bout_of("kurash", *[throw("green") + award("green", "waza-ari")] * 2)
    assert (bout.result.winner, bout.result.by) == ("green", "ippon")
    bout = bout_of("kurash", *[throw("green") + award("green", "yuko")] * 3)
    assert (bout.final["green"].yuko, bout.final["green"].waza_ari) == (3, 0)
    bout = bout_of("kurash", *[fault("green", "shido")] * 3)
    assert (bout.result.winner, bout.result.by) == ("blue", "disqualification")


# FILA 2005 to 2013 (WO-01, WO-06): best of three periods, each from 0:0; who wins two
# may have fewer points in all: 3-2, 0-4, 1-0.
def test_periods_won_beat_points_in_all() -> None:
    first = throw("red", "lateral-drop") + award("red", 3) + award("blue", 2) + stated(red=3, blue=2)
    second = award("blue", 3) + award("blue", 1) + stated(red=0, blue=4)
    third = throw("red", "double-leg") + award("red", 1) + stated(red=1, blue=0)
    begin = call("start", of="period")
    bout = bout_of(
        "fila.2005", first, call("end", of="period"), begin, second, call("end", of="period"), begin, third
    )
    assert (bout.final["red"].points, bout.final["blue"].points) == (1, 0)
    assert bout.result.winner == "red"
