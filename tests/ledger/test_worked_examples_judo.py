# ruff: noqa: E501 (a case is a line)
"""The worked cases of judo by era, told in claims: scores, shidos, what ends the bout.

J rows: IJF judo by era (Beijing 2008 guide, IJF changes of Dec 2012, insidethegames on 2017, British Judo on
2018 and 2025, IJF 2022, IJF news of 17 Dec 2024). A tally is waza-ari, yuko, koka, shido; koka is -1 where
the era has none, yuko likewise.
"""

from typing import NamedTuple

import pytest
from telling import Told, award, call, fault, hold, result, tell, throw

from hikite.ledger import keep, load_rulesets
from hikite.records import Bout

RULESETS = load_rulesets()
ON = "goes on"
Four = tuple[int, int, int, int]


class Case(NamedTuple):
    """A case: rules, what each side has before, what happens, what each has after, the end."""

    id: str
    rules: str
    white: Four
    blue: Four
    acts: list[list[Told]]
    white_after: Four
    blue_after: Four
    end: str


def four(w: int = 0, y: int = 0, k: int = 0, s: int = 0) -> Four:
    return w, y, k, s


N = four()
SHIDO_B = fault("blue", "shido")
GOLDEN = call("start", "golden-score")
TIME = call("end")
IPPON = "white ippon"


def before(side: str, has: Four) -> list[list[Told]]:
    acts = [
        award(side, name)
        for name, count in zip(("waza-ari", "yuko", "koka"), has, strict=False)
        for _ in range(count)
    ]
    return acts + [fault(side, "shido") for _ in range(has[3])]


def told(case: Case, *more: list[Told]) -> Bout:
    testimony = tell(
        *before("white", case.white), *before("blue", case.blue), *case.acts, *more, ruleset=case.rules
    )
    return keep(testimony, RULESETS).bouts[0]


J25, J18, J17, J13, J09, J03 = "judo.2025", "judo.2018", "judo.2017", "judo.2013", "judo.2009", "judo.2003"
W1, Y1, K1, S1, S2, S3 = four(w=1), four(y=1), four(k=1), four(s=1), four(s=2), four(s=3)

CASES = [
    # 2025 on
    Case("JG-E01", J25, N, N, [throw("white", "uchi-mata", "back") + award("white", "ippon")], N, N, IPPON),  # JG-01
    Case("JG-E02", J25, N, N, [throw("white", "uchi-mata", "past-side")], W1, N, ON),  # JG-04
    Case("JG-E03", J25, W1, N, [throw("white", "uchi-mata", "past-side") + award("white", "waza-ari")], four(w=2), N, IPPON),  # JG-06
    Case("JG-E04", J25, N, N, [throw("white", "uchi-mata", "side")], Y1, N, ON),  # JG-05
    Case("JG-E05", J25, Y1, N, [throw("white", "uchi-mata", "buttocks")], four(y=2), N, ON),  # JG-05
    Case("JG-E06", J25, four(y=4), N, [award("white", "yuko")], four(y=5), N, ON),  # JG-06: yuko never adds up
    Case("JG-E07", J25, four(y=5), W1, [TIME], four(y=5), W1, "blue waza-ari"),  # JX-06
    Case("JG-E08", J25, N, N, [hold("white", 4)], N, N, ON),  # JG-02
    Case("JG-E09", J25, N, N, [hold("white", 7)], Y1, N, ON),  # JG-02
    Case("JG-E10", J25, N, N, [hold("white", 13)], W1, N, ON),  # JG-03
    Case("JG-E11", J25, N, N, [hold("white", 20, "completed")], N, N, IPPON),  # JG-03
    Case("JG-E12", J25, W1, N, [hold("white", 10, "completed")], four(w=2), N, IPPON),  # JX-09
    Case("JG-E13", J25, Y1, N, [SHIDO_B], Y1, S1, ON),  # JG-08
    Case("JG-E14", J25, S1, four(y=1, s=2), [SHIDO_B], S1, four(y=1, s=3), "white hansoku-make"),  # JG-08
    Case("JG-E15", J25, four(w=1, y=1, s=1), four(w=1, y=1, s=2), [TIME], four(w=1, y=1, s=1), four(w=1, y=1, s=2), ON),
    Case("JG-E16", J25, N, S1, [GOLDEN, hold("white", 5, "completed")], Y1, S1, "white golden-score"),  # JG-07
    Case("JG-E17", J25, N, S1, [GOLDEN, SHIDO_B], N, S2, ON),  # JG-08
    Case("JG-E18", J25, N, N, [result("white", "submission")], N, N, IPPON),  # JX-07
    # 2018 to January 2025
    Case("JF-E01", J18, N, N, [throw("white", "uchi-mata", "back") + award("white", "ippon")], N, N, IPPON),  # JF-02
    Case("JF-E02", J18, N, N, [throw("white", "uchi-mata", "side")], W1, N, ON),  # JF-08
    Case("JF-E03", J18, W1, N, [award("white", "waza-ari")], four(w=2), N, IPPON),  # JF-01
    Case("JF-E04", J18, N, N, [throw("white", "uchi-mata", "side-elbow")], W1, N, ON),  # JF-09
    Case("JF-E05", J18, N, N, [throw("white", "uchi-mata", "buttocks")], N, N, ON),  # JF-10
    Case("JF-E06", J18, N, N, [hold("white", 9)], N, N, ON),  # JF-03
    Case("JF-E07", J18, N, N, [hold("white", 12)], W1, N, ON),  # JF-03
    Case("JF-E08", J18, N, N, [hold("white", 20, "completed")], N, N, IPPON),  # JF-03
    Case("JF-E09", J18, W1, N, [hold("white", 10, "completed")], four(w=2), N, IPPON),  # JX-09
    Case("JF-E10", J18, N, N, [throw("white", "uchi-mata", "bridge") + award("white", "ippon")], N, N, IPPON),  # JF-07
    Case("JF-E11", J18, N, N, [SHIDO_B], N, S1, ON),  # JF-07
    Case("JF-E12", J18, N, four(w=1, s=2), [SHIDO_B], N, four(w=1, s=3), "white hansoku-make"),  # JF-06
    Case("JF-E13", J18, N, S2, [TIME], N, S2, ON),  # JF-04
    Case("JF-E14", J18, N, S1, [GOLDEN, SHIDO_B], N, S2, ON),  # JF-04
    Case("JF-E15", J18, N, S2, [GOLDEN, SHIDO_B], N, S3, "white hansoku-make"),  # JF-04 JF-06
    Case("JF-E16", J18, N, S1, [GOLDEN, throw("blue", "tai-otoshi") + award("blue", "waza-ari")], N, four(w=1, s=1), "blue golden-score"),
    Case("JF-E17", J18, W1, N, [TIME], W1, N, "white waza-ari"),  # JX-06
    # older eras
    Case("JO-E01", J03, N, N, [hold("white", 12)], K1, N, ON),  # JB-02
    Case("JO-E02", J03, N, N, [hold("white", 17)], Y1, N, ON),  # JB-02
    Case("JO-E03", J03, N, N, [hold("white", 22)], W1, N, ON),  # JB-02
    Case("JO-E04", J03, N, N, [hold("white", 25, "completed")], N, N, IPPON),  # JB-02
    Case("JO-E05", J03, N, N, [SHIDO_B], K1, S1, ON),  # JB-05
    Case("JO-E06", J03, N, S1, [SHIDO_B], Y1, S2, ON),  # JB-05: the koka becomes a yuko
    Case("JO-E07", J03, four(k=4), Y1, [TIME], four(k=4), Y1, "blue yuko"),  # JX-06 JB-04
    Case("JO-E08", J03, N, N, [throw("white", "o-uchi-gari", "buttocks")], K1, N, ON),  # JB-03
    Case("JO-E09", J09, N, N, [throw("white", "o-uchi-gari", "buttocks")], N, N, ON),  # JC-01
    Case("JO-E10", J09, N, N, [hold("white", 16)], Y1, N, ON),  # JC-02
    Case("JO-E11", J09, N, N, [SHIDO_B], N, S1, ON),  # JC-03
    Case("JO-E12", J09, N, S1, [SHIDO_B], Y1, S2, ON),  # JC-03
    Case("JO-E13", J13, N, N, [hold("white", 11)], Y1, N, ON),  # JD-02
    Case("JO-E14", J13, N, N, [hold("white", 16)], W1, N, ON),  # JD-02
    Case("JO-E15", J13, N, S2, [SHIDO_B], N, S3, ON),  # JD-03
    Case("JO-E16", J13, four(y=1, s=1), four(y=1, s=2), [TIME], four(y=1, s=1), four(y=1, s=2), "white shido"),  # JD-04
    Case("JO-E17", J13, N, S3, [SHIDO_B], N, four(s=4), "white hansoku-make"),  # JD-03
    Case("JO-E18", J17, four(w=2), N, [award("white", "waza-ari")], four(w=3), N, ON),  # JE-01: do not add up
    Case("JO-E19", J17, N, S1, [TIME], N, S1, ON),  # JE-04
    Case("JO-E20", J17, N, S1, [GOLDEN, SHIDO_B], N, S2, "white golden-score"),  # JE-05
    Case("JO-E21", J17, N, S2, [SHIDO_B], N, S3, "white hansoku-make"),  # JE-03
]  # fmt: skip


def shown(bout: Bout, side: str) -> Four:
    tally = bout.final[side]
    return tally.waza_ari or 0, tally.yuko or 0, tally.koka or 0, tally.shido or 0


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_judo(case: Case) -> None:
    bout = told(case)
    assert (shown(bout, "white"), shown(bout, "blue")) == (case.white_after, case.blue_after)
    if case.end == ON:
        # the bout goes on (after time: in golden score), and a waza-ari counts
        extra = [call("restart", "golden-score")] if TIME in case.acts else []
        further = told(case, *extra, award("blue", "waza-ari"))
        assert shown(further, "blue")[0] == case.blue_after[0] + 1
    else:
        winner, by = case.end.split()
        assert (bout.result.winner, bout.result.by) == (winner, by)
        assert sum(tally.ippon or 0 for tally in bout.final.values()) == (
            by == "ippon" and case.white_after[0] < 2
        )
