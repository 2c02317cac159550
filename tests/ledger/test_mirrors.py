"""Competitors whose names were learnt the wrong way round: what settles it, and what leaves it alone."""

import pytest
from telling import award, call, fault, result, stated, tell

from hikite.ledger import keep, load_rulesets, righted
from hikite.records import Cast, Competitor, Sheet, Testimony

RULESETS = load_rulesets()
LEARNT = (Competitor(side="red", name="Orsan"), Competitor(side="blue", name="Tarik"))
RULES = "sambo.sport.2020"


def told(named: str, leader: tuple[int, int], winner: str, competitors: tuple[Competitor, ...]) -> Testimony:
    """Two awards, a warning and the result go by a name that means ``named``; the score goes by colours."""
    other = "blue" if named == "red" else "red"
    said = tell(
        call("start"),
        award(named, 4),
        award(named, 2),
        fault(other, "warning"),
        stated(red=leader[0], blue=leader[1]),
        award(named, 1),
        stated(red=leader[0] + (leader[0] > 0), blue=leader[1] + (leader[1] > 0)),
        result(winner, "points"),
        ruleset=RULES,
    )
    return said.model_copy(update={"sheet": Sheet(ruleset=RULES, competitors=competitors)})


@pytest.mark.parametrize(
    ("named", "leader", "winner", "turns"),
    [
        # The board and the winner, both by colour, contradict every award told by name.
        ("red", (0, 6), "blue", True),
        ("blue", (6, 0), "red", True),
        # They agree.
        ("red", (6, 0), "red", False),
        # Neither way fits: four to two is in nobody's favour.
        ("red", (4, 2), "red", False),
    ],
)
def test_the_names_are_turned_where_all_else_says_so(
    named: str, leader: tuple[int, int], winner: str, turns: bool
) -> None:
    heard = told(named, leader, winner, LEARNT)
    other = "blue" if named == "red" else "red"
    found, weighed = righted(heard, lambda sheet: told(other, leader, winner, sheet.competitors), RULESETS)
    assert (found is not heard) == turns
    assert [one.name for one in found.sheet.competitors] == ["Tarik", "Orsan"][:: 1 if turns else -1]
    assert [one.side for one in found.sheet.competitors] == ["red", "blue"]
    # The bouts weighed on the way are those of the testimony that is kept.
    assert keep(found, RULESETS, weighed=weighed) == keep(found, RULESETS)
    assert [one.claims for one in weighed] == [dict(enumerate(found.claims))]


@pytest.mark.parametrize("update", [{"casts": (Cast(first=0, competitors=LEARNT),)}, {"sheet": Sheet()}])
def test_several_bouts_or_no_names_are_left_alone(update: dict[str, object]) -> None:
    heard = told("red", (0, 6), "blue", LEARNT).model_copy(update=update)
    found, weighed = righted(heard, lambda _: pytest.fail("heard again"), RULESETS)
    assert found is heard
    assert not weighed
