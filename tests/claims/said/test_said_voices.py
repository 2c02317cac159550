"""Many voices: how far the phrases reach, and what must never be heard in everyday talk."""

import pytest
from saying import hear
from voices import KINDS, agrees, heard, rows

# Sentences of each table that are understood whole. The first set was written before the phrases were
# widened, the second after; both are kept as they were, what is not understood included.
FIRST = {
    "results": 36, "penalties": 33, "stoppages": 38, "positions": 31, "landings": 30, "holds": 29,
    "scores": 40, "tallies": 35, "clocks": 28,
}  # fmt: skip
SECOND = dict.fromkeys(KINDS, 15) | {"scores": 14}


@pytest.mark.parametrize("table", KINDS)
@pytest.mark.parametrize(("setting", "floors"), [("first", FIRST), ("second", SECOND)])
def test_voices(setting: str, floors: dict[str, int], table: str) -> None:
    missed = [row.said for row in rows(setting, table) if not agrees(row)]
    assert len(rows(setting, table)) - len(missed) >= floors[table], missed


# "She passed her exam by a point" is all that is still mistaken.
def test_chatter() -> None:
    talk = [row for setting in ("first", "second") for row in rows(setting, "chatter")]
    assert len([row.said for row in talk if heard(row)]) <= 1


# A number that counts nothing in the bout, or praises somebody, is no award.
@pytest.mark.parametrize(
    "said",
    [
        "That's a big one.", "He's one of those.", "That goes for the one in blue.", "It's number one.",
        "It's one on one.", "That's a good one for the club.", "The younger one waits.", "A tough one.",
    ],
)  # fmt: skip
def test_never_an_award(said: str) -> None:
    assert hear(said, kind="score") == []


# What would follow is not given.
@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Keep your feet there and it's a total victory.", "result"),
        ("Stay up and that's four.", "score"),
        ("Land it and that's four.", "score"),
        ("One more and it's a tech.", "result"),
        ("Eight would end it.", "result"),
        ("One more turn and it's a tech.", "result"),
    ],
)
def test_conditional(said: str, kind: str) -> None:
    assert [claim.status for claim in hear(said, kind=kind)] == ["supposed"]


# Counted aloud over a hold, numbers are no awards, not even in fives.
@pytest.mark.parametrize(
    "said",
    [
        ("Osaekomi!", "Five… ten… fifteen…"),
        ("The hold's on.", "Five.", "Ten.", "Fifteen."),
        ("The hold's on.", "They're calling it in fives: five... ten... twelve, and she's shrimped out."),
        ("Osaekomi!", "One, two, three, four, five."),
    ],
)
def test_a_count_is_no_award(said: tuple[str, ...]) -> None:
    assert {claim.kind for claim in hear(*said)} == {"hold"}
