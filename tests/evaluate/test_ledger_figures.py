"""Ledger figures on cases small enough to count by hand."""

import pytest
from bouts_by_hand import counted, gold, label

from hikite.evaluate.bouts import evaluate_ledger, final_exact
from hikite.evaluate.golds import Final
from hikite.records import Bout, Clock, Event, Ledger, Result, Tally

ROW = {"line": 1, "side": "red", "points": 4, "why": "hip throw"}
GIVEN = label(1, "Four to red", "score", None, points=4, side="red", status="given")
LEAD = label(3, "Nothing", "stated_score", None, red=4, blue=0, status="stated")


def ledger(*events, red=4, winner="red", by="points", **more):
    told = {
        "number": 1, "ruleset": "sambo.sport.2020", "ruleset_confidence": 1.0, "sides": ("red", "blue"),
        "competitors": (), "start_ms": 0, "end_ms": 40_000, "first_claim": 0, "stop_claim": 1,
        "events": events, "final": {"red": Tally(points=red), "blue": Tally(points=0)},
        "final_confidence": 0.9, "result": Result(winner=winner, by=by),
    }  # fmt: skip
    return Ledger(bouts=(Bout.model_validate(told | more),))


COUNTED = [
    # the line runs from 10 to 15 s: within five seconds either side
    ((counted(11, "red", 4),), 1.0),
    ((counted(4.6, "red", 4),), 1.0),
    ((counted(4.4, "red", 4),), 0.0),
    ((counted(20.1, "red", 4),), 0.0),
    # the side and the points must be the row's
    ((counted(11, "blue", 4),), 0.0),
    ((counted(11, "red", 2),), 0.0),
    # one of two right: 2*1 / (1 row + 2 counted)
    ((counted(11, "red", 4), counted(12, "red", 4)), 2 / 3),
    # an event that does not count is not counted
    ((counted(11, "red", 4), counted(12, "red", 4, counts=False)), 1.0),
    ((), 0.0),
]


@pytest.mark.parametrize(("events", "f1"), COUNTED)
def test_counted_events(tmp_path, events, f1):
    assert evaluate_ledger(ledger(*events), gold(tmp_path, [GIVEN], [ROW])).f1 == pytest.approx(f1)


def test_an_unspoken_row_may_lie_anywhere_before_the_statement_that_reveals_it(tmp_path):
    # nobody gives the four; the score said at 30 to 35 s shows it: 34 s is in time, 36 s is not
    truth = gold(tmp_path, [LEAD], [ROW])
    assert evaluate_ledger(ledger(counted(34, "red", 4, unspoken=True)), truth).f1 == 1.0
    assert evaluate_ledger(ledger(counted(36, "red", 4, unspoken=True)), truth).f1 == 0.0


def test_a_row_at_the_throw_is_met_by_its_later_award(tmp_path):
    # the row stands at 0 to 5 s, the four is given at 10 to 15 s: 16 s is right, but not near the row's line
    row = {"line": 0, "side": "red", "points": 4}
    found = evaluate_ledger(ledger(counted(16, "red", 4)), gold(tmp_path, [GIVEN], [row]))
    assert (found.matched, found.matched_near) == (1, 0)
    found = evaluate_ledger(ledger(counted(21, "red", 4)), gold(tmp_path, [GIVEN], [row]))
    assert found.matched == 0


def test_final_and_result(tmp_path):
    truth = gold(tmp_path, [GIVEN], [ROW])
    right = evaluate_ledger(ledger(), truth)
    assert (right.finals, right.winners, right.results, right.bouts) == (1, 1, 1, 1)
    other = evaluate_ledger(ledger(red=6, by="submission"), truth)
    assert (other.finals, other.winners, other.results) == (0, 1, 0)
    assert evaluate_ledger(Ledger(bouts=()), truth).finals == 0


FINALS = [
    ({"white": Tally(waza_ari=1), "blue": Tally(shido=2)}, True),
    # what is not told is nought, and shido counts too
    ({"white": Tally(waza_ari=1), "blue": Tally(shido=1)}, False),
    ({"white": Tally(waza_ari=1, yuko=1), "blue": Tally(shido=2)}, False),
    ({"white": Tally(waza_ari=1)}, False),
]


@pytest.mark.parametrize(("told", "exact"), FINALS)
def test_a_judo_final_is_every_class_and_shido(told, exact):
    true = Final(tallies={"white": Tally(waza_ari=1, yuko=0, shido=0), "blue": Tally(waza_ari=0, shido=2)})
    assert final_exact(told, true) is exact


MINUTE = label(2, "a minute left", "clock", None, seconds=60)
GONE = label(2, "a minute left", "clock", None, seconds=60, clock="elapsed")


def clocked(at_s, low, high):
    event = counted(at_s, "red", 0, counts=False)
    return Event.model_validate(
        event.model_dump() | {"clock": Clock(low_s=low, high_s=high, best_s=(low + high) / 2)}
    )


CLOCKS = [
    # read off an event of that moment: 60 s within 50 to 80, best 65: five seconds off
    (MINUTE, (clocked(21, 50, 80),), 1, (5.0,)),
    (MINUTE, (clocked(21, 70, 80),), 0, (15.0,)),
    # a second's slack
    (MINUTE, (clocked(21, 61, 61),), 1, (1.0,)),
    # between neighbours: not above the earlier's high nor below the later's low
    (MINUTE, (clocked(11, 60, 70), clocked(31, 40, 50)), 1, (5.0,)),
    # a minute gone of a five-minute bout is four minutes left
    (GONE, (clocked(21, 235, 245),), 1, (0.0,)),
    # nothing told is not within bounds
    (MINUTE, (), 0, ()),
]


@pytest.mark.parametrize(("truth", "events", "bound", "errors"), CLOCKS)
def test_clock_bounds(tmp_path, truth, events, bound, errors):
    found = evaluate_ledger(ledger(*events), gold(tmp_path, [truth, GIVEN], [ROW]))
    assert (found.clocks, found.clocks_bound, found.clock_errors) == (1, bound, errors)
