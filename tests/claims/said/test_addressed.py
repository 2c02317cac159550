"""Whoever has a competitor in the bout speaks to that one."""

import pytest
from saying import talk_of

from hikite.claims.references import Reference
from hikite.claims.said.addressed import addressed
from hikite.terms.speech import load_speech


@pytest.mark.parametrize(
    ("said", "side", "expected"),
    [
        ("A warning for us, and you're five up.", "blue", [("you 're", "blue")]),
        # Nobody knows whose the speaker is.
        ("A warning for him, and you're five up.", "blue", []),
        # Advice to all the world points at nobody.
        ("A warning for us. You need a sleeve.", "blue", []),
    ],
)
def test_whom_a_coach_speaks_to(said: str, side: str, expected: list[tuple[str, str]]) -> None:
    talk = talk_of(said)
    known = [Reference(at, at + 1, side, "epithet") for at, word in enumerate(talk.texts) if word == "us"]
    found = addressed(talk, known, load_speech("en").actors)
    assert [(talk.words(one.first, one.stop), one.side) for one in found] == expected
