import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.utterances.halts import halts
from talks import talk


def parted(*lines: str, pause_ms: int = 0) -> str:
    told = talk(*lines, pause_ms=pause_ms)
    return " ".join(f"| {word}" if at in told.halts else word for at, word in enumerate(told.texts))


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # A new subject behind a full clause, a joining word, a call for itself, points called out.
        (
            "blue turns in and lands him thats four points",
            "blue turns in and lands him | that 's four points",
        ),
        ("he is behind now but he needs a throw", "he is behind now | but he needs a throw"),
        (
            "the referee says stop okay back to the middle",
            "the referee says stop | okay | back to the middle",
        ),
        (
            "blue turns in no he lands on his side two points",
            "blue turns in | no | he lands on his side | two points",
        ),
        # What belongs together stays so: an article and its noun, a verb and what it is done to.
        ("and he takes him down to the mat", "and he takes him down to the mat"),
        ("with the sleeve in his right hand", "with the sleeve in his right hand"),
        ("four and a half minutes to fight", "four and a half minutes to fight"),
        ("it is a five minute match", "it is a five minute match"),
        ("they stand him up plus two", "they stand him up | plus two"),
    ],
)
def test_bare_talk_halts_where_a_mark_would_stand(said: str, expected: str) -> None:
    assert parted(said) == expected


def test_where_marks_are_written_nothing_is_guessed() -> None:
    assert talk("Blue turns in. Okay he lands, on his side!").halts == ()


def test_a_silence_is_a_halt() -> None:
    assert parted("red turns the", "man", pause_ms=0) == "red turns the man"
    assert "him | blue" in parted("red turns him", "blue jacket on the mat", pause_ms=700)


@given(st.lists(st.text("abcdefghij", min_size=1, max_size=8), max_size=12))
def test_every_word_but_the_first_has_a_guess(words: list[str]) -> None:
    """Law: one number a word, and none before the first."""
    assert len(halts(words)) == len(words)
    assert halts(words)[:1] in ([], [0.0])


def test_a_part_of_a_talk_keeps_its_halts() -> None:
    told = talk("blue turns in no he lands on his side two points")
    part = told.part(2, 8)
    assert part.halts == tuple(at - 2 for at in told.halts if 2 < at < 8)
