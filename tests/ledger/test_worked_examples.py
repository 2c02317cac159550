# ruff: noqa: E501 (a case is a line)
"""The rules' own cases, told in claims: the award must follow, the bout go on or end.

Each case names the published rows behind it; SM, SH, SP, SE, SL: FIAS sport sambo (the 2006 family of rules,
news of 18 Feb 2020, order 892 of the Russian Ministry of Sport); J: IJF judo by era; W: UWW wrestling. Values
marked "memory" in the rule-set files are memory here too.
"""

from typing import NamedTuple

import pytest
from telling import Told, award, call, clock, fault, hold, result, stated, tell, throw

from hikite.ledger import keep, load_rulesets
from hikite.records import Bout

RULESETS = load_rulesets()
S20, OLD = "sambo.sport.2020", "sambo.sport.legacy"
ON = "goes on"
LEFT = [4, 2, 1]


class Case(NamedTuple):
    """A case: rules, score before (points, or faults in ``faults``), what happens, score after, the end."""

    id: str
    rules: str
    before: tuple[int, int]
    acts: list[list[Told]]
    after: tuple[int, int]
    end: str
    date: str | None = None


def earned(side: str, points: int, values: list[int]) -> list[list[Told]]:
    """Awards that bring a side to so many points."""
    acts = []
    for value in values:
        while points >= value:
            acts.append(award(side, value))
            points -= value
    return acts


def told(case: Case, *more: list[Told]) -> Bout:
    values = [5, 4, 2, 1] if case.rules.startswith("uww") else LEFT
    before = earned("blue", case.before[1], values) + earned("red", case.before[0], values)
    testimony = tell(*before, *case.acts, *more, ruleset=case.rules, date=case.date)
    return keep(testimony, RULESETS).bouts[0]


WARN_B = fault("blue", "warning")
TAP = result("red", "submission")
TIME = call("end")

SAMBO = [
    *(
        case
        for rules in (S20, OLD)
        for case in (
            Case("SAM-01", rules, (0, 0), [throw("red", "o-goshi", "side", False)], (4, 0), ON),  # SM-01
            Case("SAM-02", rules, (4, 0), [throw("blue", "ura-nage", "back", True)], (4, 4), ON),  # SM-02 SM-10
            Case("SAM-03", rules, (4, 4), [throw("red", "morote-gari", "buttocks", False)], (6, 4), ON),  # SM-03
            Case("SAM-04", rules, (6, 4), [throw("blue", "ko-soto-gake", "side", True)], (6, 6), ON),  # SM-04
            Case("SAM-05", rules, (6, 6), [throw("red", "tani-otoshi", "stomach", True)], (7, 6), ON),  # SM-05
            Case("SAM-06", rules, (0, 5), [throw("red", "seoi-nage", "back", False)], (0, 5), "red total-victory"),
            Case("SAM-07", rules, (1, 0), [throw("red", "perevorot")], (1, 0), ON),  # SM-08
            Case("SAM-11", rules, (0, 0), [hold("red", 8)], (0, 0), ON),  # SH-04
            Case("SAM-22", rules, (2, 7), [TAP], (2, 7), "red submission"),  # SL-01 SL-02
            Case("SAM-23", rules, (4, 2), [TIME], (4, 2), "red points"),  # SE-07
        )
    ),
    Case("SAM-08", OLD, (2, 0), [hold("red", 20, "completed")], (6, 0), ON, "2012-05-01"),  # SH-01
    Case("SAM-09", OLD, (4, 0), [hold("red", 20, "completed")], (8, 0), "red superiority", "2018-05-01"),  # SE-03
    Case("SAM-10", OLD, (0, 1), [hold("blue", 12)], (0, 3), ON),  # SH-02
    Case("SAM-12", S20, (3, 2), [hold("red", 20, "completed")], (5, 2), ON),  # SH-03 (contradicted)
    Case("SAM-13", S20, (3, 2), [hold("red", 14)], (3, 2), ON),  # SH-05
    Case("SAM-14", S20, (1, 1), [WARN_B], (1, 1), ON),  # SP-02
    Case("SAM-15", S20, (1, 1), [WARN_B, WARN_B], (2, 1), ON),  # SP-03 (memory)
    Case("SAM-16", S20, (1, 1), [WARN_B, WARN_B, WARN_B], (4, 1), ON),  # SP-03 (memory)
    Case("SAM-17", S20, (1, 1), [WARN_B, WARN_B, WARN_B, WARN_B], (4, 1), "red disqualification"),  # SP-02
    Case("SAM-18", S20, (4, 1), [throw("red", "o-goshi", "side", False)], (8, 1), ON),  # lead of 7
    Case("SAM-19", S20, (8, 1), [throw("red", "o-uchi-gari", "chest", True)], (9, 1), "red superiority"),  # SE-03
    Case("SAM-20", OLD, (10, 0), [throw("red", on="stomach", fell=False)], (12, 0), "red superiority", "2012-05-01"),
    Case("SAM-21", OLD, (8, 0), [throw("red", on="shoulder", fell=True)], (9, 0), ON, "2012-05-01"),  # SE-04
]  # fmt: skip

COMBAT = [
    # SC rows: order 892 of the Russian Ministry of Sport, art. 35; the margin is taken over from sport sambo
    Case("CSA-01", "sambo.combat.2020", (0, 0), [throw("red", "kick", "side", False)], (4, 0), ON),
    Case("CSA-02", "sambo.combat.2020", (0, 0), [throw("red", "knockdown")], (4, 0), ON),
    Case("CSA-03", "sambo.combat.2020", (4, 0), [throw("red", "knockdown")], (8, 0), "red superiority"),
    Case("CSA-04", "sambo.combat.2020", (0, 6), [TAP], (0, 6), "red submission"),
    Case("CSA-05", "sambo.combat.2020", (0, 0), [result("red", "knockout")], (0, 0), "red knockout"),
    Case("CSA-06", "sambo.combat.2020", (1, 0), [hold("red", 20, "completed")], (3, 0), ON),
    Case("CSA-07", "sambo.combat.2020", (0, 0), [result("red", "knockout")], (0, 0), "red knockout"),
]

PASSIVE_B, PASSIVE_R, CAUTION_B = (
    fault("blue", "passivity"),
    fault("red", "passivity"),
    fault("blue", "caution"),
)
RUN_OUT = clock(0, of="activity")

FREESTYLE = [
    Case("FS-01", "uww.fs", (0, 0), [throw("red", "go-behind") + award("red", 2)], (2, 0), ON),  # WV-03
    Case("FS-02", "uww.fs", (2, 0), [throw("red", "gut-wrench")], (4, 0), ON),  # WV-04
    Case("FS-03", "uww.fs", (4, 0), [throw("red", "leg-lace") + award("red", 2), throw("red", "leg-lace") + award("red", 2)], (8, 0), ON),  # WV-04
    Case("FS-04", "uww.fs", (8, 0), [throw("red", "leg-lace")], (10, 0), "red superiority"),  # WE-01
    Case("FS-05", "uww.fs", (2, 0), [throw("blue", "step-out")], (2, 1), ON),  # WV-01
    Case("FS-06", "uww.fs", (2, 1), [throw("blue", "reversal") + award("blue", 1)], (2, 2), ON),  # WV-02
    Case("FS-07", "uww.fs", (0, 4), [throw("red", "headlock-throw", "back") + award("red", 4)], (4, 4), ON),  # WV-05
    Case("FS-08", "uww.fs", (4, 4), [throw("red", "suplex", "back") + award("red", 5)], (9, 4), ON),  # WV-06
    Case("FS-09", "uww.fs", (0, 0), [throw("red", "double-leg") + CAUTION_B + award("red", 3)], (3, 0), ON),  # WV-10
    Case("FS-10", "uww.fs", (0, 0), [PASSIVE_B], (0, 0), ON),  # WP-01
    Case("FS-11", "uww.fs", (0, 0), [PASSIVE_B, PASSIVE_B, RUN_OUT], (1, 0), ON),  # WP-02 WP-04
    Case("FS-12", "uww.fs", (0, 0), [PASSIVE_B, throw("red", "single-leg") + award("red", 2), RUN_OUT], (3, 0), ON),
    Case("FS-13", "uww.fs", (0, 0), [PASSIVE_B, throw("blue", "step-out") + award("blue", 1)], (0, 1), ON),  # WP-05
    Case("FS-14", "uww.fs", (1, 4), [award("blue", 1)], (1, 5), ON),  # WV-13
    Case("FS-15", "uww.fs", (2, 0), [award(None, 0, "denied")], (2, 0), ON),  # WV-14
    Case("FS-16", "uww.fs", (0, 0), [award("red", 4), award("blue", 2), award("blue", 2), call("end", "period"), TIME], (4, 4), "red points"),  # WT-01
    Case("FS-17", "uww.fs", (0, 0), [award("red", 2), award("blue", 2), call("end", "period"), TIME], (2, 2), "blue points"),
    Case("FS-18", "uww.fs", (9, 0), [call("end", "period"), TIME], (9, 0), "red points"),  # WE-09
    Case("FS-19", "uww.fs", (0, 8), [result("red", "fall")], (0, 8), "red fall"),  # WE-05
    Case("FS-20", "uww.fs", (0, 0), [PASSIVE_B], (0, 0), ON),  # WP-06
]  # fmt: skip

GRECO = [
    Case("GR-01", "uww.gr", (0, 0), [PASSIVE_B], (1, 0), ON),  # WG-02
    Case("GR-02", "uww.gr", (1, 0), [throw("red", "gut-wrench")], (3, 0), ON),  # WV-04
    Case("GR-03", "uww.gr", (3, 0), [throw("red", "reverse-lift") + award("red", 5)], (8, 0), "red superiority"),
    Case("GR-04", "uww.gr", (2, 0), [PASSIVE_B, PASSIVE_R], (3, 1), ON),  # WG-03
    Case("GR-05", "uww.gr", (2, 0), [PASSIVE_B, PASSIVE_R, PASSIVE_R], (3, 1), ON),  # WG-04
    Case("GR-06", "uww.gr", (0, 0), [throw("red", "arm-throw", "back") + award("red", 4)], (4, 0), ON),  # WV-05
    Case("GR-07", "uww.gr", (4, 0), [throw("blue", "arm-drag") + throw("blue", "go-behind") + award("blue", 2)], (4, 2), ON),
    Case("GR-08", "uww.gr", (4, 2), [throw("red", "step-out")], (5, 2), ON),  # WV-01
    Case("GR-09", "uww.gr", (5, 2), [CAUTION_B], (6, 2), ON),  # WV-11 WV-09
    Case("GR-10", "uww.gr", (6, 2), [throw("red", "reversal") + award("red", 1)], (7, 2), ON),  # WV-02
    Case("GR-11", "uww.gr", (0, 0), [PASSIVE_B, PASSIVE_R, call("end", "period"), TIME], (1, 1), "blue points"),  # WT-01
    Case("GR-12", "uww.gr", (7, 0), [call("end", "period"), TIME], (7, 0), "red points"),  # WE-09
    Case("GR-13", "uww.gr", (7, 1), [throw("red", "takedown") + award("red", 2)], (9, 1), "red superiority"),  # WE-01
    Case("GR-14", "uww.gr", (0, 5), [throw("red", "headlock-throw", "back") + award("red", 4), result("red", "fall")], (4, 5), "red fall"),
    Case("GR-15", "uww.gr", (0, 3), [CAUTION_B, CAUTION_B, CAUTION_B], (3, 3), "red disqualification"),  # WE-06
    Case("GR-16", "uww.gr", (0, 0), [award(None, 0, "denied")], (0, 0), ON),  # WV-15
    Case("GR-17", "uww.gr", (2, 2), [award("red", 1)], (3, 2), ON),  # WV-12 (memory)
]  # fmt: skip


@pytest.mark.parametrize(
    "case", [*SAMBO, *COMBAT, *FREESTYLE, *GRECO], ids=lambda case: f"{case.id} {case.rules}"
)
def test_points(case: Case) -> None:
    bout = told(case)
    assert {side: tally.points for side, tally in bout.final.items()} == {
        "red": case.after[0],
        "blue": case.after[1],
    }
    if case.end == ON:
        # the bout goes on: one more award counts
        further = told(case, award("blue", 2))
        assert further.final["blue"].points == case.after[1] + 2
    else:
        winner, by = case.end.split()
        assert (bout.result.winner, bout.result.by) == (winner, by)


# SM-01, SM-04: the thrower's fall halves a landing on the side; the last word on the fall counts.
@pytest.mark.parametrize(("at_first", "at_last", "row"), [(False, True, "SM-04"), (True, False, "SM-01")])
def test_the_last_word_on_the_throwers_fall_counts(at_first: bool, at_last: bool, row: str) -> None:
    seen: Told = {
        "kind": "landing",
        "concept": "landing",
        "status": "stated",
        "side": "blue",
        "fell": at_last,
    }
    value = 2 if at_last else 4
    testimony = tell(
        [*throw("red", on="side", fell=at_first), seen, *award("red", value)], stated(red=value), ruleset=S20
    )
    (line,) = (event for event in keep(testimony, RULESETS).bouts[0].events if event.counts)
    assert (line.row, line.points) == (row, value)
