import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.utterances import spoken
from talks import talk, transcript


def statements(*lines: str, pause_ms: int = 200) -> list[str]:
    told = talk(*lines, pause_ms=pause_ms)
    return [told.words(one.first, one.stop) for one in told.utterances]


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        # Sentence marks cut where a person has written them.
        (["He turns in. Nothing! Again?"], ["he turns in", "nothing", "again"]),
        # A statement crosses the border of two cues.
        (["He turns in for the", "throw and lands. Four."], ["he turns in for the throw and lands", "four"]),
        # Another speaker is another statement.
        (["Ada: he turns in", "Ben: nothing there"], ["he turns in", "nothing there"]),
    ],
)
def test_written_speech_is_cut_at_its_marks(lines: list[str], expected: list[str]) -> None:
    assert statements(*lines) == expected


# Captions with commas but no full stops: a line waited after is over, one that goes on at once is not.
@pytest.mark.parametrize(("pause_ms", "expected"), [(1500, 2), (300, 1)])
def test_a_line_that_is_waited_after_is_over(pause_ms: int, expected: int) -> None:
    told = "He turns in. Nothing! Again. And again."
    lines = ("the count is on, twenty would have been four", "four nil, three minutes left")
    assert len(statements(told, *lines, pause_ms=pause_ms)) == 4 + expected


@pytest.mark.parametrize(
    ("lines", "pause_ms", "expected"),
    [
        # A long pause ends a statement without any mark.
        (["he turns in and over he goes", "that is four for the man in blue"], 2500, 2),
        # A short one between two cues does not: captions break lines anywhere.
        (["he turns in and over", "goes the big man in front"], 150, 1),
        # A discourse marker after a full clause begins anew.
        (
            ["red turns in for the throw with the belt okay so blue takes the sleeve and pulls him down"],
            200,
            2,
        ),
        # What waits for another word ends nothing, however long the statement.
        (
            [
                "and the referee stops the two of them and a quiet word about not working with a remark for",
                "red",
            ],
            400,
            1,
        ),
        # A number that goes on.
        (
            ["so it is one nothing on the board and on the clock there are four", "and a quarter minutes"],
            400,
            1,
        ),
    ],
)
def test_bare_speech_is_cut_by_evidence(lines: list[str], pause_ms: int, expected: int) -> None:
    assert len(statements(*lines, pause_ms=pause_ms)) == expected


@given(st.lists(st.text(alphabet="abc .!?,-'", min_size=1, max_size=40), max_size=6))
def test_every_token_belongs_to_exactly_one_statement(lines: list[str]) -> None:
    """Law: statements follow each other without gap or overlap, from the first token to the last."""
    told = talk(*[" ".join(line.split()) for line in lines])
    borders = [0, *(one.stop for one in told.utterances)]
    assert [one.first for one in told.utterances] == borders[:-1]
    assert borders[-1] == len(told.tokens)
    assert all(one.first < one.stop and one.cut for one in told.utterances)


def test_the_words_of_a_range_come_back_as_written() -> None:
    said = transcript("Turns in, uchi-mata!", "Over he goes.")
    told = talk("Turns in, uchi-mata!", "Over he goes.")
    assert spoken(told, said, 2, 5) == "uchi-mata Over"
