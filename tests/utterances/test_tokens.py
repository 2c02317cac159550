import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.records import Talk
from talks import talk, transcript


@pytest.mark.parametrize(
    ("said", "pieces"),
    [
        # A clitic stands apart: "he's" may own or be.
        ("he's in", "he 's in"),
        ("Okesh’s throw", "okesh 's throw"),
        ("can't, won't, didn't", "can n't will n't did n't"),
        ("they've I'd we're", "they 've i 'd we 're"),
        # Many recognisers leave the apostrophe out; what is a word of its own stays whole.
        ("hes out and theyve stopped, she doesnt know", "he 's out and they 've stopped she does n't know"),
        ("Thats what im told, you cant", "that 's what i 'm told you can n't"),
        ("well, were done", "well were done"),
        # A hyphen or dash joins two words.
        ("uchi-mata", "uchi mata"),
        ("Nil–two", "nil two"),
        # Figures and letters part; a clock is two numbers.
        ("3:04 left", "3 04 left"),
        ("79kg", "79 kg"),
        # Other scripts are words too.
        ("подхват изнутри", "подхват изнутри"),
        ("内股 だ", "内股 だ"),
        # Captions tell of sounds in square brackets.
        ("[Applause] red turns in [music playing] and throws", "red turns in and throws"),
        ("it's over[Applause]", "it 's over"),
        # Marks alone are no word.
        ("... — !", ""),
    ],
)
def test_words_are_cut_into_pieces(said: str, pieces: str) -> None:
    told = talk(said)
    assert told.words(0, len(told.tokens)) == pieces


@pytest.mark.parametrize(
    ("said", "pieces"),
    [
        # "its" and "ill" are rather "it's" and "I'll" where apostrophes are missing and none is written.
        ("thats it now ill say its four", "that 's it now i 'll say it 's four"),
        ("that's it now he fell ill on its edge", "that 's it now he fell ill on its edge"),
        ("he fell ill on its edge", "he fell ill on its edge"),
    ],
)
def test_what_is_a_word_of_its_own_parts_only_where_apostrophes_are_left_out(said: str, pieces: str) -> None:
    told = talk(said)
    assert told.words(0, len(told.tokens)) == pieces


@pytest.mark.parametrize(
    ("said", "after"),
    [
        ("yes, no. What?! four", [",", ".", "?", ""]),
        ("(two) then", ["", ""]),
        ("six-nil", ["-", ""]),
        # A point inside a figure ends nothing: a recogniser writes "six five" so.
        ("it's 6.5 now.", ["", "", "", "", "."]),
        ("at 6. 5 more", ["", ".", "", ""]),
        ("wait… now", ["…", ""]),
    ],
)
def test_the_mark_after_a_piece_is_kept(said: str, after: list[str]) -> None:
    assert [token.after for token in talk(said).tokens] == after


@given(st.lists(st.text(max_size=20), max_size=5))
def test_tokens_are_of_their_type_and_stand_where_they_say(lines: list[str]) -> None:
    """Law: its fields are of their types, its offsets lie in its cue, in order, its time in the cue's."""
    said = transcript(*[" ".join(line.split()) for line in lines])
    told = talk(*[cue.text for cue in said.cues])
    assert Talk.model_validate(told.model_dump(), strict=True) == told
    last = (-1, 0)
    for token in told.tokens:
        cue = said.cues[token.cue]
        assert 0 <= token.start < token.stop <= len(cue.text)
        assert (token.cue, token.start) >= last
        assert cue.start_ms <= token.start_ms <= token.end_ms <= cue.end_ms
        last = (token.cue, token.stop)
