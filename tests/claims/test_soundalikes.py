import pytest

from hikite.claims.soundalikes import alike
from talks import talk

NAMES = (("velmarkov", "red"), ("ostarin", "red"), ("lindegard", "blue"), ("jory", "blue"))


def met(said: str, taken: frozenset[int] = frozenset()) -> list[tuple[str, str]]:
    words = talk(said)
    found = sorted(alike(words, NAMES, taken, "en"), key=lambda one: one.first)
    return [(words.words(one.first, one.stop), one.side) for one in found]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # A name cut into English words, never twice alike.
        ("vel mark of turns in", [("vel mark of", "red")]),
        ("and fell markoff is behind", [("fell markoff", "red")]),
        ("lynn de guard has the sleeve", [("lynn de guard", "blue")]),
        ("that is for linda guard", [("linda guard", "blue")]),
        ("oh star in goes over", [("oh star in", "red")]),
        # Plain talk that only begins or ends like one.
        ("he turns in and lands on his side", []),
        ("the guard is open and the story goes on", []),
        ("he starts in the middle", []),
        # What is far from a name is one where somebody acts, and none amid other words.
        ("lynn the god shoots the single", [("lynn the god", "blue")]),
        ("he sees lynn the god of things", []),
        ("austrian shoots", [("austrian", "red")]),
        ("the austrian", []),
    ],
)
def test_names_heard_as_english_words_are_met(said: str, expected: list[tuple[str, str]]) -> None:
    assert met(said) == expected


def test_words_that_are_taken_are_no_name() -> None:
    assert met("vel mark of turns in", frozenset({1})) == []
