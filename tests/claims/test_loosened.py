"""Grips broken and lost: which one it was and whose. All names are invented."""

import pytest

from hearings import claims

TAKES = "Veldrik has the high collar."


@pytest.mark.parametrize(
    ("said", "lost"),
    [
        # Whoever strips it does not lose it.
        ("Ambrose rips it off.", [("grip:high-collar", "red")]),
        ("Ambrose peels the hand away.", [("grip:high-collar", "red")]),
        # Whoever loses it does, and so does whoever had it last, where nobody is told.
        ("Veldrik loses the grip.", [("grip:high-collar", "red")]),
        ("And the grip's gone.", [("grip:high-collar", "red")]),
        # "Takes it off him" takes nothing, and no bout.
        ("Ambrose takes it off him.", [("grip:high-collar", "red")]),
        # A grip of one's own is not what one strips: whose it was stays open, but it was the other's.
        ("Veldrik breaks the grip.", [("grip:grip-break", "blue")]),
        # Told without a name, where nobody had a grip, it is nothing.
        ("Veldrik rips it off.", []),
    ],
)
def test_which_grip_is_lost(said: str, lost: list[tuple[str, str]]) -> None:
    heard = claims(TAKES, said)
    assert [(one.concept, one.side) for one in heard if one.status == "broken"] == lost
    assert "result" not in [one.kind for one in heard]


def test_a_grip_of_long_ago_is_not_what_is_broken() -> None:
    waiting = [
        "They circle and wait, and wait, and walk around, and nobody does a thing about it at all."
    ] * 6
    heard = claims(TAKES, *waiting, "Ambrose breaks the grip.")
    assert [(one.concept, one.side) for one in heard if one.status == "broken"] == [
        ("grip:grip-break", "red")
    ]
