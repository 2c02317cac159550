"""Faulty times: what is done about them, and that it is told."""

import pytest
from soundness import check

from hikite.transcripts import read

DISORDER = "cue stands after a later one; put in order of time"
EMPTY = "cue has no length; its end is estimated"
REVERSED = "cue ends before it starts; its end is estimated"
NEGATIVE = "cue starts before 0:00; moved to 0:00"
EARLIER = "cue overlaps an earlier one, which is cut short"


@pytest.mark.parametrize(
    ("times", "expected", "mendings"),
    [
        # in order: nothing to do
        ([(0, 2), (2, 4)], [("a", 0, 2000), ("b", 2000, 4000)], []),
        # out of order
        ([(2, 4), (0, 2)], [("b", 0, 2000), ("a", 2000, 4000)], [(5, DISORDER)]),
        # no length, and an end before the start: the end is estimated, but not beyond the next start
        ([(0, 0), (2, 4)], [("a", 0, 500), ("b", 2000, 4000)], [(2, EMPTY)]),
        ([(3, 1), (3.2, 4)], [("a", 3000, 3200), ("b", 3200, 4000)], [(2, REVERSED)]),
        # overlap
        ([(0, 3), (2, 4)], [("a", 0, 2000), ("b", 2000, 4000)], [(5, EARLIER)]),
        # the same time: shared by length of text
        ([(0, 4), (0, 4)], [("a", 0, 2000), ("b", 2000, 4000)], [(5, EARLIER)]),
        # before the start
        ([(-1, 2), (2, 4)], [("a", 0, 2000), ("b", 2000, 4000)], [(2, NEGATIVE)]),
    ],
)  # fmt: skip
def test_mending(
    times: list[tuple[float, float]], expected: list[tuple[str, int, int]], mendings: list[tuple[int, str]]
) -> None:
    def stamp(seconds: float) -> str:
        return (
            f"{'-' if seconds < 0 else ''}00:00:{abs(int(seconds)):02d},{round(abs(seconds) % 1 * 1000):03d}"
        )

    blocks = (f"{n + 1}\n{stamp(a)} --> {stamp(b)}\n{'abcdef'[n]}\n" for n, (a, b) in enumerate(times))
    # the blocks are joined without an empty line: cue n's times stand on line 3n + 2
    transcript = read("".join(blocks).encode(), name="x.srt")
    assert [(cue.text, cue.start_ms, cue.end_ms) for cue in transcript.cues] == expected
    assert [(mending.line, mending.problem) for mending in transcript.mendings] == mendings
    assert {mending.file for mending in transcript.mendings} <= {"x.srt"}


def test_two_named_speakers_may_overlap_but_not_one_with_themselves() -> None:
    transcript = read(
        b"WEBVTT\n\n00:00.000 --> 00:10.000\n<v A>one\n\n00:02.000 --> 00:03.000\n<v B>two\n\n"
        b"00:05.000 --> 00:08.000\n<v A>three\n"
    )
    assert [(cue.speaker, cue.start_ms, cue.end_ms) for cue in transcript.cues] == [
        ("A", 0, 5000),
        ("B", 2000, 3000),
        ("A", 5000, 8000),
    ]
    assert [mending.line for mending in transcript.mendings] == [9]


def test_a_cue_that_is_set_apart_does_not_grow_into_another() -> None:
    # A nameless voice may be anybody's, so it overlaps neither speaker; found by coverage-guided fuzzing.
    transcript = read(
        b"WEBVTT\n\n00:00.000 --> 00:10.000\nxxxx\n\n00:00.000 --> 00:10.000\nyyyy\n\n"
        b"00:00.500 --> 00:10.000\n<v A>zzzz\n\n00:01.000 --> 01:30.000\n<v B>last\n"
    )
    check(transcript)
    assert [mending.line for mending in transcript.mendings] == [6, 9, 12]
