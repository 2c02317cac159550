"""WebVTT: examples of the W3C recommendation, sections 1.1 to 1.8, re-typed; and what files in use do."""

import pytest

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts import read


def vtt(body: str) -> Transcript:
    return read(("WEBVTT\n\n" + body).encode())


def cues(transcript: Transcript) -> list[tuple[int, int, str | None, str]]:
    return [(cue.start_ms, cue.end_ms, cue.speaker, cue.text) for cue in transcript.cues]


def words(transcript: Transcript) -> list[tuple[str, int, int, bool]]:
    return [(w.text, w.start_ms, w.end_ms, w.measured) for cue in transcript.cues for w in cue.words]


def test_voices_and_overlap_of_two_speakers() -> None:
    # W3C WebVTT, 1.1 "A simple caption file": two speakers talk at once, so nothing is mended.
    transcript = vtt(
        "00:27.000 --> 00:30.000\n<v Roger Bingham>And I want to do a follow-up.\n\n"
        "00:30.000 --> 00:31.500 align:right size:50%\n<v Roger Bingham>When we e-mailed&mdash;\n\n"
        "00:30.500 --> 00:32.500 align:left size:50%\n<v Neil deGrasse Tyson>Didn't we talk about enough?\n\n"
        "00:32.500 --> 00:33.500 align:left size:50%\n<v Neil deGrasse Tyson><i>Laughs</i>\n"
    )
    assert cues(transcript) == [
        (27000, 30000, "Roger Bingham", "And I want to do a follow-up."),
        (30000, 31500, "Roger Bingham", "When we e-mailed—"),
        (30500, 32500, "Neil deGrasse Tyson", "Didn't we talk about enough?"),
        (32500, 33500, "Neil deGrasse Tyson", "Laughs"),
    ]
    assert transcript.cues[1].settings == "align:right size:50%"
    assert [cue.line for cue in transcript.cues] == [3, 6, 9, 12]
    assert transcript.mendings == ()


def test_line_breaks_are_spaces() -> None:
    # W3C WebVTT, 1.2 "Caption cues with multiple lines".
    transcript = vtt(
        "00:05.000 --> 00:09.000\n&mdash; It will perforate your stomach.\n&mdash; You could die.\n"
    )
    assert transcript.cues[0].text == "— It will perforate your stomach. — You could die."


def test_styles_and_notes_are_not_said() -> None:
    # W3C WebVTT, 1.3 "Styling captions", and 1.5 "Comments".
    transcript = vtt(
        "STYLE\n::cue {\n  color: papayawhip;\n}\n/* no blank lines */\n\n"
        "NOTE comment blocks can be used between style blocks.\n\n"
        "STYLE\n::cue(b) {\n  color: peachpuff;\n}\n\n"
        "hello\n00:00:00.000 --> 00:00:10.000\nHello <b>world</b>.\n\nNOTE end of file\n"
    )
    assert [(cue.label, cue.text, cue.line) for cue in transcript.cues] == [("hello", "Hello world.", 17)]
    assert transcript.mendings == ()


def test_identifiers() -> None:
    # W3C WebVTT, 1.4: identifiers, one of them with spaces and letters beyond ASCII.
    transcript = vtt(
        "test\n00:00.000 --> 00:02.000\nThis is a test.\n\n123\n00:02.000 --> 00:04.000\nThat's an L!\n\n"
        "crédit de transcription\n00:04.000 --> 00:05.000\nTranscrit par Célestes&trade;\n"
    )
    assert [cue.label for cue in transcript.cues] == ["test", "123", "crédit de transcription"]
    assert transcript.cues[2].text == "Transcrit par Célestes™"


def test_language_spans_and_classes_vanish() -> None:
    # W3C WebVTT, 1.4: classes and language spans.
    transcript = vtt(
        "04:05.001 --> 04:07.800\nSur les <i.foreignphrase><lang en>playground</lang></i>, ici\n"
    )
    assert cues(transcript) == [(245001, 247800, None, "Sur les playground, ici")]


def test_voice_spans_with_classes_and_an_end() -> None:
    # W3C WebVTT, 1.4: in the third cue some text belongs to no speaker.
    transcript = vtt(
        "00:00.000 --> 00:02.000\n<v.first.loud Esme>It's a blue apple tree!\n\n"
        "00:02.000 --> 00:04.000\n<v Mary>No way!\n\n"
        "00:04.000 --> 00:06.000\n<v Esme>Hee!</v> <i>laughter</i>\n\n"
        "00:06.000 --> 00:08.000\n<v.loud Mary>That's awesome!\n"
    )
    assert [(cue.speaker, cue.text) for cue in transcript.cues] == [
        ("Esme", "It's a blue apple tree!"),
        ("Mary", "No way!"),
        ("Esme", "Hee!"),
        (None, "laughter"),
        ("Mary", "That's awesome!"),
    ]
    assert transcript.cues[2].end_ms == transcript.cues[3].start_ms == 4000 + 2000 * 4 // 12


def test_regions() -> None:
    # W3C WebVTT, 1.4: two regions of rollup captions; a speaker's own cues overlap and are cut short.
    transcript = vtt(
        "REGION\nid:fred\nwidth:40%\nlines:3\nscroll:up\n\nREGION\nid:bill\nwidth:40%\n\n"
        "00:00:00.000 --> 00:00:20.000 region:fred align:left\n<v Fred>Hi, my name is Fred\n\n"
        "00:00:02.500 --> 00:00:22.500 region:bill align:right\n<v Bill>Hi, I'm Bill\n\n"
        "00:00:05.000 --> 00:00:25.000 region:fred align:left\n<v Fred>Would you like to get a coffee?\n"
    )
    assert cues(transcript) == [
        (0, 5000, "Fred", "Hi, my name is Fred"),
        (2500, 22500, "Bill", "Hi, I'm Bill"),
        (5000, 25000, "Fred", "Would you like to get a coffee?"),
    ]
    assert [(mending.line, mending.problem) for mending in transcript.mendings] == [
        (19, "cue overlaps an earlier one, which is cut short")
    ]


@pytest.mark.parametrize(
    ("payload", "expected"),
    [
        # W3C WebVTT, "WebVTT cue timestamp": each word of a line lit up in turn; the first has no time.
        (
            "Mellow <00:01.000>yellow <00:02.000>fellow",
            [("Mellow", 0, 1000, False), ("yellow", 1000, 2000, True), ("fellow", 2000, 4000, True)],
        ),
        # several words between two times share them out by length
        (
            "ab abcd<00:03.000> x",
            [("ab", 0, 1000, False), ("abcd", 1000, 3000, False), ("x", 3000, 4000, True)],
        ),
        # a time right after a word ends it, another before the next word starts that
        ("a<00:01.000> <00:02.000>b", [("a", 0, 1000, True), ("b", 2000, 4000, True)]),
        # the spans that live captioning writes
        ("he<00:00:01.000><c> goes</c>", [("he", 0, 1000, True), ("goes", 1000, 4000, True)]),
        # a time inside a word, as for singing, says nothing of the word's start
        ("to<00:01.000>ma<00:02.000>to it", [("tomato", 0, 3000, False), ("it", 3000, 4000, False)]),
        # times that run backwards or beyond the cue are held inside it
        (
            "a <00:09.000>b <00:01.000>c",
            [("a", 0, 4000, False), ("b", 4000, 4000, True), ("c", 4000, 4000, True)],
        ),
    ],
)
def test_inline_times(payload: str, expected: list[tuple[str, int, int, bool]]) -> None:
    assert words(vtt(f"00:00.000 --> 00:04.000\n{payload}\n")) == expected


@pytest.mark.parametrize(
    ("payload", "text"),
    [
        # W3C WebVTT, "cue text tokenizer": HTML character references, in text and in a voice
        ("&amp; &lt;b&gt; a&nbsp;b &copy;", "& <b> a b ©"),
        ("&", "&"),
        ("R&D &unknown;", "R&D &unknown;"),
        # ruby: what stands above the line is not said
        ("<ruby>背負い投げ<rt>せおいなげ</rt></ruby>!", "背負い投げ!"),
        # an unclosed tag swallows the rest, as the standard's tokenizer does
        ("go <i", "go"),
        ("1 < 2", "1"),
    ],
)
def test_markup(payload: str, text: str) -> None:
    assert vtt(f"00:00.000 --> 00:04.000\n{payload}\n").cues[0].text == text


def test_voice_with_entity() -> None:
    assert vtt("00:00.000 --> 00:04.000\n<v Ann &amp; Bo>Go\n").cues[0].speaker == "Ann & Bo"


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_newlines(newline: str) -> None:
    # W3C WebVTT, "WebVTT line terminator": a line terminator is CR LF, LF or CR.
    data = newline.join(
        ["WEBVTT - with a title", "", "a", "00:01.000 --> 00:02.000", "go", "on", ""]
    ).encode()
    transcript = read(data)
    assert [(cue.text, cue.line, cue.label) for cue in transcript.cues] == [("go on", 4, "a")]


def test_missing_blank_line() -> None:
    # W3C WebVTT, 2.1: two cues even where the blank line between them was skipped.
    transcript = vtt("00:00.000 --> 00:01.000\none\n00:01.000 --> 00:02.000\ntwo\n")
    assert [cue.text for cue in transcript.cues] == ["one", "two"]


def test_header_that_runs_into_a_cue() -> None:
    # web-platform-tests, webvtt/parsing/file-parsing/tests/header-timings.html
    assert read(b"WEBVTT\n00:00.000 --> 00:01.000\none\n").cues[0].text == "one"


def test_language_of_the_header() -> None:
    transcript = read(b"WEBVTT\nKind: captions\nLanguage: en-GB\n\n00:00.000 --> 00:01.000\none\n")
    assert transcript.language == "en-GB"


def test_stray_text_is_reported() -> None:
    transcript = vtt("00:00.000 --> 00:01.000\none\n\nlost\n")
    assert [(mending.line, mending.problem) for mending in transcript.mendings] == [
        (6, "text outside of any cue; left out")
    ]


@pytest.mark.parametrize(
    "timings",
    [
        # web-platform-tests, webvtt/parsing/file-parsing/support/timings-too-short.test and arrows.test
        "0000:00.000 --> 00:00:01.000",
        "00:0000.000 --> 00:00:01.000",
        "00:00:00000 --> 00:00:01.000",
        "00:00:00. --> 00:00:01.000",
        "00:00:00 --> 00:00:01.000",
        " --> 00:00:01.000",
        "00:00:00.000 --a -->",
        "00:60.000 --> 02:00.000",
        "00:00.000 --> 00:01.0001",
        "-->",
    ],
)
def test_broken_times(timings: str) -> None:
    with pytest.raises(TranscriptError, match=r"bout\.vtt:3: broken times of a cue"):
        read(f"WEBVTT\n\n{timings}\ntext\n".encode(), name="bout.vtt")
