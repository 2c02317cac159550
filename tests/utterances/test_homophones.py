import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.utterances.homophones import meant
from talks import talk


@pytest.mark.parametrize(
    ("heard", "expected"),
    [
        # A number where no preposition could stand, before a new clause or in a count; a noun for a verb.
        ("that is to and he is up", "that is two and he is up"),
        ("he cares about the need", "he cares about the knee"),
        ("five for three two one", "five four three two one"),
        # A colour where no verb can stand.
        ("and the lost one is a point for read", "and the lost one is a point for red"),
        ("four to blew and a warning against write", "four to blue and a warning against white"),
        ("the blew corner wants a look", "the blue corner wants a look"),
        ("she has nothing left to read", "she has nothing left to read"),
        ("the referee blew his whistle", "the referee blew his whistle"),
        ("and blew sits down again", "and blue sits down again"),
        ("the whistle blew and he blew past her", "the whistle blew and he blew past her"),
        ("a warning bread and bread must score", "a warning red and red must score"),
        ("plain bread and butter", "plain bread and butter"),
        # A preposition where one stands.
        ("he goes for the leg", "he goes for the leg"),
        ("he goes for two", "he goes for two"),
        ("two points to red and two to blue", "two points to red and two to blue"),
        ("a point for red for the step out", "a point for red for the step out"),
        ("he gets to his feet", "he gets to his feet"),
        ("he went through with it", "he went through with it"),
        ("they need to go", "they need to go"),
    ],
)
def test_a_word_misheard_is_known_by_those_around_it(heard: str, expected: str) -> None:
    assert " ".join(meant(heard.split())) == expected


def test_what_is_written_with_marks_stays() -> None:
    told = talk("Five for three. And the gong! That is it, for points.")
    assert "four" not in told.texts


def test_what_cannot_stand_there_is_known_among_marks_too() -> None:
    assert talk("Caution, blew. One to red. And blew has the sleeve, he's in.").texts.count("blue") == 2


@given(st.lists(st.sampled_from(["to", "for", "two", "four", "a", "the", "he", "red"]), max_size=12))
def test_only_words_that_sound_alike_are_replaced(words: list[str]) -> None:
    """Law: as many words as before, and each the same or what it may be heard as."""
    allowed = {"to": {"to", "two"}, "for": {"for", "four"}}
    found = meant(words)
    assert len(found) == len(words)
    assert all(one in allowed.get(word, {word}) for one, word in zip(found, words, strict=True))
