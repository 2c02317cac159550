"""SubRip: common practice of players and converters; no standard."""

import pytest

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts import read


def srt(*payloads: str) -> Transcript:
    blocks = (
        f"{at + 1}\n00:00:{at * 2:02d},000 --> 00:00:{at * 2 + 2:02d},000\n{payload}\n"
        for at, payload in enumerate(payloads)
    )
    return read("\n".join(blocks).encode())


def said(transcript: Transcript) -> list[tuple[str | None, str]]:
    return [(cue.speaker, cue.text) for cue in transcript.cues]


def test_cues() -> None:
    transcript = read(
        b"1\r\n00:00:01,500 --> 00:00:02,250 X1:40 X2:600\r\nHe <i>goes</i>\r\nin\r\n\r\n"
        b"2\r\n01:00:03,000 --> 01:00:04,000\r\nagain\r\n"
    )
    first, second = transcript.cues
    assert (transcript.format, first.start_ms, first.end_ms, first.text) == ("srt", 1500, 2250, "He goes in")
    assert (first.label, first.line, first.settings) == ("1", 2, "X1:40 X2:600")
    assert (second.start_ms, second.line) == (3_603_000, 7)


@pytest.mark.parametrize(
    ("payload", "text"),
    [
        ('<font color="#ff0000">red</font> <B>scores</B>', "red scores"),
        (r"{\an8}up {b}top{/b}", "up top"),
        (r"one\Ntwo", "one two"),
        # a converter's entities are decoded, what only looks like one is not
        ("you &amp; me &lt;3 R&D &copy;", "you & me <3 R&D &copy;"),
        # not markup: a score and an arrow
        ("3 < 4 and 5 > 2", "3 < 4 and 5 > 2"),
        # an empty line inside a cue does not end it
        ("one\n\ntwo", "one two"),
    ],
)
def test_text(payload: str, text: str) -> None:
    assert srt(payload).cues[0].text == text


@pytest.mark.parametrize(
    ("payloads", "expected"),
    [
        # a name in capitals is a speaker's, and goes on until another one is named
        (["ANNA: he's in", "and out", "BO: no"], [("ANNA", "he's in"), ("ANNA", "and out"), ("BO", "no")]),
        # two dashes are two turns, one is decoration
        (["- He's in!\n- No, he isn't."], [(None, "He's in!"), (None, "No, he isn't.")]),
        (["- He's in!"], [(None, "He's in!")]),
        # dashes with names
        (["- ANNA: in!\n- BO: out."], [("ANNA", "in!"), ("BO", "out.")]),
        # arrows as live captions write them
        ([">> ANNA: in!", ">> out."], [("ANNA", "in!"), (None, "out.")]),
        # a name in mixed case counts once it recurs
        (
            ["Anna: in", "Bo: out", "Anna: in", "Bo: out", "Anna: in", "Bo: out"],
            [("Anna", "in"), ("Bo", "out")] * 3,
        ),
        (["Speaker one: in", "out"], [(None, "Speaker one: in"), (None, "out")]),
        # not every colon: a score, a clock, a remark, a mixed-case word
        (["Score: four two"], [(None, "Score: four two")]),
        (["RED: 4"], [(None, "RED: 4")]),
        (["and look: he's in"], [(None, "and look: he's in")]),
        (["2:10 left"], [(None, "2:10 left")]),
        # in a file of capitals they tell nothing
        (["FOUR POINTS: RED SCORES"], [(None, "FOUR POINTS: RED SCORES")]),
        # a dash inside the line is a dash
        (["he's in - no"], [(None, "he's in - no")]),
    ],
)
def test_speakers(payloads: list[str], expected: list[tuple[str | None, str]]) -> None:
    assert said(srt(*payloads)) == expected


def test_turns_share_the_time_by_length() -> None:
    first, second = srt("- abc\n- abcdef").cues
    assert (first.start_ms, first.end_ms, second.start_ms, second.end_ms) == (0, 666, 666, 2000)


def test_headless_webvtt_is_read() -> None:
    transcript = read(b"00:01.000 --> 00:02.000\ngo\n")
    assert (transcript.format, transcript.cues[0].start_ms) == ("srt", 1000)


def test_broken_times() -> None:
    with pytest.raises(TranscriptError, match=r"a\.srt:6: broken times of a cue"):
        read(b"1\n00:00:01,000 --> 00:00:02,000\ngo\n\n2\n00:00:03,000 --> 00:00:xx\non\n", name="a.srt")
