"""Rolling captions: each word is said once, whatever was shown again."""

import json

import pytest

from hikite.records import Transcript
from hikite.transcripts import read


def srt(*payloads: str, gap_ms: int = 0) -> Transcript:
    return read(
        "\n".join(
            f"{n}\n00:00:{2 * n:02d},{gap_ms:03d} --> 00:00:{2 * n + 2:02d},000\n{payload}\n"
            for n, payload in enumerate(payloads)
        ).encode()
    )


@pytest.mark.parametrize(
    ("payloads", "expected"),
    [
        # the line before is shown above the new one
        (["he goes\nin", "in\nand out", "and out\nagain now"], ["he goes in", "and out", "again now"]),
        # three lines roll
        (["a b\nc d\ne f", "c d\ne f\ng h", "e f\ng h\ni j"], ["a b c d e f", "g h", "i j"]),
        # the caption grows word by word: one cue, each word timed by its caption
        (["he", "he goes", "he goes in"], ["he goes in"]),
        # it grows below a line that stays
        (["up\nhe", "up\nhe goes", "up\nhe goes in"], ["up he goes in"]),
        # the same caption shown twice, again and again
        (["he goes", "he goes", "and in", "and in"], ["he goes", "and in"]),
        # a long repeat is one in any file
        (["here he goes for it\nnow", "on", "here he goes for the leg", "here he goes for the leg\nwell"],
         ["here he goes for it now", "on", "here he goes for the leg", "well"]),
        # words that are said again are kept: nothing here rolls
        (["yes", "yes he is", "and up", "two for red", "no", "not yet", "go"],
         ["yes", "yes he is", "and up", "two for red", "no", "not yet", "go"]),
    ],
)  # fmt: skip
def test_repeats(payloads: list[str], expected: list[str]) -> None:
    assert [cue.text for cue in srt(*payloads).cues] == expected


def test_what_was_done_is_told_once() -> None:
    assert [(mending.line, mending.problem) for mending in srt("he", "he goes", "he goes in").mendings] == [
        (6, "rolling captions; 2 that repeat the one before are shown once")
    ]


def test_growing_words_take_the_times_of_their_captions() -> None:
    words = srt("he", "he goes", "he goes in").cues[0].words
    assert [(word.text, word.start_ms, word.end_ms, word.measured) for word in words] == [
        ("he", 0, 2000, False),
        ("goes", 2000, 4000, True),
        ("in", 4000, 6000, True),
    ]


def test_after_a_pause_words_are_said_again() -> None:
    assert len(srt("go on", "go on", "go on", gap_ms=900).cues) == 3


def test_live_captions_with_inline_times() -> None:
    transcript = read(
        b"WEBVTT\n\n00:00:00.000 --> 00:00:02.500 align:start\n \nhello<00:00:00.400><c> there</c>\n\n"
        b"00:00:02.500 --> 00:00:02.510 align:start\nhello there\n \n\n"
        b"00:00:02.510 --> 00:00:05.000 align:start\nhello there\nhow<00:00:02.900><c> are</c>\n\n"
        b"00:00:05.000 --> 00:00:05.010 align:start\nhow are\n \n"
    )
    assert [(cue.text, cue.start_ms, cue.end_ms) for cue in transcript.cues] == [
        ("hello there", 0, 2500),
        ("how are", 2510, 5000),
    ]
    assert [word.measured for cue in transcript.cues for word in cue.words] == [True] * 4


def test_words_with_times_of_their_own_were_said_twice() -> None:
    words = [{"word": "go", "start": 0.5, "end": 1}, {"word": "on", "start": 1, "end": 1}]
    segments = [{"start": n, "end": n + 1, "text": "go on", "words": words} for n in range(4)]
    assert len(read(json.dumps(segments).encode()).cues) == 4
