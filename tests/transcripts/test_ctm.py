"""CTM: the line layout and comments of the NIST scoring toolkit's "ctm" format, from memory."""

import pytest

from hikite.errors import TranscriptError
from hikite.transcripts import read


def test_words_and_pauses() -> None:
    transcript = read(
        b";; comment\nfinal 1 0.50 0.25 he 0.9\nfinal 1 0.75 0.5 goes NA\n\nfinal 1 3.00 0.5 in\n"
    )
    assert transcript.format == "ctm"
    assert [(cue.text, cue.start_ms, cue.end_ms, cue.line, cue.speaker) for cue in transcript.cues] == [
        ("he goes", 500, 1250, 2, None),
        ("in", 3000, 3500, 5, None),
    ]
    first = transcript.cues[0].words[0]
    assert (first.probability, first.measured, first.end_ms) == (0.9, True, 750)


def test_channels_are_speakers() -> None:
    transcript = read(b"final A 0.0 0.5 he\nfinal A 2.0 0.5 in\nfinal B 0.6 0.5 no\n")
    assert [(cue.speaker, cue.text) for cue in transcript.cues] == [("A", "he"), ("B", "no"), ("A", "in")]


def test_alternatives_and_left_out_words() -> None:
    transcript = read(
        b"f 1 0.0 0.5 he\nf 1 * * <ALT_BEGIN>\nf 1 0.5 0.5 goes\nf 1 * * <ALT>\nf 1 0.5 0.5 grows\n"
        b"f 1 * * <ALT_END>\nf 1 1.0 0.1 @\nf 1 1.1 0.5 in\n"
    )
    assert transcript.cues[0].text == "he goes in"


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (b"f 1 0.0 0.5 he\nf 1 soon 0.5 in\n", "x:2: not a word line: 'f 1 soon 0.5 in'"),
        (b"f 1 0.0 0.5 he\ng 1 0.0 0.5 in\n", "x: 2 recordings in one file (f, g); cut it by recording"),
        (b"f 1 0.0 0.5 he\nf 1 * * in\n", "x:2: a word without times"),
        (b"f 1 900000.0 0.5 he\n", "x:1: a time beyond 100 hours"),
    ],
)
def test_refused(data: bytes, problem: str) -> None:
    with pytest.raises(TranscriptError) as caught:
        read(data, name="x")
    assert str(caught.value) == problem


def test_negative_times_are_mended() -> None:
    transcript = read(b"f 1 -0.5 0.7 he\nf 1 0.5 -0.5 in\n")
    assert [mending.line for mending in transcript.mendings] == [1, 2]
    assert [(word.start_ms, word.end_ms) for word in transcript.cues[0].words] == [(0, 200), (500, 500)]
