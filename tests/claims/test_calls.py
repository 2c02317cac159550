"""The referee's words of judo, written as the words a recogniser of English knows.

Words: IJF sport and organisation rules, refereeing vocabulary; from memory. How they are misheard: recognised
speech.
"""

import pytest

from hearings import terms
from hikite.claims import hear
from hikite.claims.calls import Spoken, with_calls
from hikite.mentions import find_mentions
from hikite.records import Sheet
from talks import talk


def called(said: str) -> list[tuple[str, str]]:
    spoken = talk(said)
    heard = with_calls(Spoken(spoken, (), ()), "en")
    return [(spoken.words(one.first, one.stop), one.candidates[0].concept) for one in heard.mentions]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Never twice alike, and known by its sound.
        ("over the hip and was a hurry to white", [("was a hurry", "waza-ari")]),
        ("so that is a wazahari", [("wazahari", "waza-ari")]),
        ("flat on the back eat bone", [("eat bone", "ippon")]),
        ("he has lost it hand soku mackey", [("hand soku mackey", "hansoku-make")]),
        ("hunchy may and they begin", [("hunchy may", "start")]),
        ("on the head now osaka me", [("osaka me", "osaekomi")]),
        # Everyday words where they can be no everyday words: behind an article, an ordinal, a number.
        ("that is a she dope", [("she dope", "shido")]),
        ("his second she does", [("she does", "shido")]),
        ("one you go each", [("you go", "yuko")]),
        # Before what both have, and how many it makes.
        ("nothing else and sheet those one apiece", [("sheet those", "shido")]),
        ("blue now she told third one", [("she told", "shido")]),
        # A word that is hardly one needs nothing beside it.
        ("and there the sheedle", [("sheedle", "shido")]),
    ],
)
def test_a_call_is_known_by_its_sound_and_what_stands_beside(
    said: str, expected: list[tuple[str, str]]
) -> None:
    assert called(said) == expected


@pytest.mark.parametrize(
    "said",
    [
        "off you go then and good luck",
        "when she does that it works",
        "and she goes over the top",
        "he is in a hurry and i was sorry for him",
        "i was your age when they made me bow",
        "he is trying to get a grip on the collar",
        "he may keep that only if something follows",
        # A statement's end parts them.
        "So it was. A hurry never helps.",
    ],
)
def test_everyday_words_are_no_call(said: str) -> None:
    assert called(said) == []


# What is written for a call says nothing else: "was" tells of nothing past, "she" of no woman.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("shoulder and hip was a hurry to white", ("score", "waza-ari", "given", "white")),
        ("and yes she'd owe to white", ("penalty", "shido", "given", "white")),
        ("and that is his second she dope blue", ("penalty", "shido", "given", "blue")),
    ],
)
def test_the_words_of_a_call_say_nothing_else(said: str, expected: tuple[str, str, str, str]) -> None:
    spoken = talk(said)
    heard = hear(spoken, find_mentions(spoken, terms()), terms(), Sheet(ruleset="judo.2018"))
    told = [(one.kind, one.concept, one.status, one.side) for one in heard.claims]
    assert expected in told
