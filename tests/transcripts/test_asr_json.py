"""Recogniser JSON in the shapes in use (common practice, no source)."""

import json

import pytest

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts import read


def asr(value: object) -> Transcript:
    return read(json.dumps(value).encode())


def words(transcript: Transcript) -> list[tuple[str, int, int, bool]]:
    return [(w.text, w.start_ms, w.end_ms, w.measured) for cue in transcript.cues for w in cue.words]


def test_segments_with_words() -> None:
    transcript = read(
        b'{"language": "en", "segments": [\n{"id": 0, "start": 0.0, "end": 3.9, "text": " Right, off.", '
        b'"words": [{"word": " Right,", "start": 0.0, "end": 0.7, "probability": 0.473}, '
        b'{"word": " off.", "start": 1.16, "end": 1.32, "probability": 0.5}]},\n\n'
        b'{"start": 4, "end": "5.5", "text": "We go"}]}'
    )
    assert (transcript.format, transcript.language) == ("asr-json", "en")
    assert [(cue.text, cue.start_ms, cue.end_ms, cue.line) for cue in transcript.cues] == [
        ("Right, off.", 0, 3900, 2),
        ("We go", 4000, 5500, 4),
    ]
    assert words(transcript) == [
        ("Right,", 0, 700, True),
        ("off.", 1160, 1320, True),
        ("We", 4000, 4750, False),
        ("go", 4750, 5500, False),
    ]
    assert transcript.cues[0].words[0].probability == 0.473


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        # a bare list of segments
        ([{"start": 0, "end": 1, "text": "go"}], [("go", 0, 1000, False)]),
        # words alone, under a key or in a bare list
        ({"text": "go", "result": [{"word": "go", "start": 0.5, "end": 1}]}, [("go", 500, 1000, True)]),
        ([{"word": "go", "start": 0.5, "end": 1}], [("go", 500, 1000, True)]),
        # segment times that are missing are those of its words; text too
        ([{"words": [{"word": "go", "start": 0.5, "end": 1}]}], [("go", 500, 1000, True)]),
        # words without the text's punctuation and case
        (
            [{"start": 0, "end": 2, "text": "Go, on.", "words": [
                {"word": "go", "start": 0, "end": 1}, {"word": "on", "start": 1, "end": 2}]}],
            [("Go,", 0, 1000, True), ("on.", 1000, 2000, True)],
        ),
        # pieces that belong together are one word; in scripts without spaces they are not
        (
            [{"start": 0, "end": 3, "text": "a two-on-one", "words": [
                {"word": " a", "start": 0, "end": 1}, {"word": " two", "start": 1, "end": 1.5},
                {"word": "-on", "start": 1.5, "end": 2}, {"word": "-one", "start": 2, "end": 3}]}],
            [("a", 0, 1000, True), ("two-on-one", 1000, 3000, True)],
        ),
        (
            [{"start": 0, "end": 2, "text": "内股一本", "words": [
                {"word": "内股", "start": 0, "end": 1}, {"word": "一本", "start": 1, "end": 2}]}],
            [("内股", 0, 1000, True), ("一本", 1000, 2000, True)],
        ),
        # a word without times, as forced alignment leaves numbers, takes those left between its neighbours
        (
            [{"start": 0, "end": 3, "text": "up 7 two", "words": [
                {"word": "up", "start": 0, "end": 1}, {"word": "7"}, {"word": "two", "start": 2, "end": 3}]}],
            [("up", 0, 1000, True), ("7", 1000, 2000, False), ("two", 2000, 3000, True)],
        ),
    ],
)  # fmt: skip
def test_shapes(value: object, expected: list[tuple[str, int, int, bool]]) -> None:
    assert words(asr(value)) == expected


def test_words_in_a_script_without_spaces_stand_together() -> None:
    words = [{"word": "内股", "start": 0, "end": 1}, {"word": "一本", "start": 1, "end": 2}]
    cue = asr([{"start": 0, "end": 2, "text": "内股一本", "words": words}]).cues[0]
    assert (cue.text, [(word.start, word.stop) for word in cue.words]) == ("内股一本", [(0, 2), (2, 4)])


def test_words_that_contradict_the_text_lose_their_times_not_the_text() -> None:
    transcript = asr(
        [{"start": 0, "end": 2, "text": "four for red", "words": [{"word": "two", "start": 0, "end": 1}]}]
    )
    assert transcript.cues[0].text == "four for red"
    assert not any(word.measured for word in transcript.cues[0].words)
    assert "do not add up" in transcript.mendings[0].problem


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        ('{"segments": [', "x:1: broken JSON"),
        ('{"segments": [\n{"start": 0, "end": 1, "text": "go"}\n{', "x:3: broken JSON"),
        ('[{"start": 0, "end": 1, "text": "go"}] more', "x:1: broken JSON: text after the end"),
        ('{"a": 1}', "x:1: JSON without a list of segments or words"),
        ('[{"start": 0, "end": 1}]', "x:1: a segment without text"),
        ('[\n{"end": 1, "text": "go"}]', "x:2: a segment without a start"),
        ('[{"start": "soon", "text": "go"}]', "x:1: start is not a time in seconds"),
        ('[{"start": true, "text": "go"}]', "x:1: start is not a time in seconds"),
        ('[{"start": 1e999, "text": "go"}]', "x:1: start is not a time in seconds"),
        ('[{"start": 400000, "end": 400001, "text": "go"}]', "x:1: a time beyond 100 hours"),
        ('[{"start": 0, "text": 7}]', "x:1: text is not a text"),
        ('[{"start": 0, "text": "go", "words": [7]}]', "x:1: words that are not a list of objects"),
        ('[{"word": "go", "start": 0}]', "x:1: a word without times"),
        ('[{"start": 0, "text": "go"}, 7]', "x:1: a list of objects was expected"),
        ('{"a":' + "[" * 100_000, "x: JSON beyond reading"),
        ('{"segments": [{"start": ' + "9" * 5000 + ', "text": "go"}]}', "x: JSON beyond reading"),
    ],
)
def test_refused(data: str, problem: str) -> None:
    with pytest.raises(TranscriptError) as caught:
        read(data.encode(), name="x")
    assert str(caught.value).startswith(problem)


def test_nan_is_no_time() -> None:
    # Some recognisers write NaN for what they do not know, which JSON does not have.
    transcript = read(
        b'[{"start": 0, "end": 1, "text": "go", "words": [{"word": "go", "start": NaN, "end": NaN}]}]'
    )
    assert words(transcript) == [("go", 0, 1000, False)]
