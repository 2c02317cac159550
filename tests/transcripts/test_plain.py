"""Stamped lines: common practice, no source."""

import pytest

from hikite.errors import TranscriptError
from hikite.transcripts import read


def said(text: str) -> list[tuple[int, str | None, str]]:
    return [(cue.start_ms, cue.speaker, cue.text) for cue in read(text.encode()).cues]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # in front, in every bracket, with and without hours
        ("[0:12] he's in\n[1:02:03] out", [(12_000, None, "he's in"), (3_723_000, None, "out")]),
        ("(0:12) he's in\n(0:15) out", [(12_000, None, "he's in"), (15_000, None, "out")]),
        ("0:12 he's in\n0:15\tout", [(12_000, None, "he's in"), (15_000, None, "out")]),
        ("00:12 - he's in\n00:15 – out", [(12_000, None, "he's in"), (15_000, None, "out")]),
        ("[00:12.50]he's in\n[00:15.25]out", [(12_500, None, "he's in"), (15_250, None, "out")]),
        # alone on a line, the text below, also over several lines
        ("0:12\nhe's in\nand up\n\n0:15\nout", [(12_000, None, "he's in and up"), (15_000, None, "out")]),
        ("[0:12]\nhe's in\n[0:15]\nout", [(12_000, None, "he's in"), (15_000, None, "out")]),
        # a bout's clock at the start of a line is no time of the recording
        ("0:12\n2:10 left\n0:15\nout", [(12_000, None, "2:10 left"), (15_000, None, "out")]),
        ("[0:12] he's in\n2:10 left", [(12_000, None, "he's in 2:10 left")]),
        (
            "3:12 he's in\nwith\n2:10 left\n3:15 out",
            [(192_000, None, "he's in with 2:10 left"), (195_000, None, "out")],
        ),
        # where every line has a time, one that runs back is out of order
        (
            "3:12 he's in\n3:10 goes\n3:15 out",
            [(190_000, None, "goes"), (192_000, None, "he's in"), (195_000, None, "out")],
        ),
        # speakers
        ("0:12 ANNA: he's in\n0:15 BO: no", [(12_000, "ANNA", "he's in"), (15_000, "BO", "no")]),
    ],
)
def test_stamps(text: str, expected: list[tuple[int, str | None, str]]) -> None:
    assert said(text) == expected


def test_given_ends_are_kept() -> None:
    cue = read(b"[00:00.000 --> 00:03.900]  Right, off we go.\n").cues[0]
    assert (cue.start_ms, cue.end_ms, cue.text) == (0, 3900, "Right, off we go.")


def test_a_cue_lasts_until_the_next_or_as_long_as_speech_needs() -> None:
    first, second, third = read(b"[0:00] " + b"word " * 40 + b"\n[0:05] hi\n[9:00] end\n").cues
    assert (first.end_ms, second.end_ms) == (5000, 5500)
    assert third.end_ms - third.start_ms == 500


def test_lines_of_one_second_follow_one_another() -> None:
    transcript = read(b"[0:01] four points\n[0:01] for red\n[0:03] on\n")
    assert [(cue.start_ms, cue.end_ms) for cue in transcript.cues][:2] == [(1000, 2250), (2250, 3000)]
    assert transcript.mendings == ()


def test_text_before_the_first_time_is_kept_and_reported() -> None:
    transcript = read(b"Welcome back\n[0:05] he's in\n")
    assert [(cue.start_ms, cue.text) for cue in transcript.cues] == [(0, "Welcome back"), (5000, "he's in")]
    assert [mending.line for mending in transcript.mendings] == [1]


@pytest.mark.parametrize("text", ["no times at all", "at 3:04pm", "[3:04 he", "3:99 he", "1:75:00 he"])
def test_no_stamp(text: str) -> None:
    with pytest.raises(TranscriptError, match="not timed text of a known format"):
        read(text.encode())
