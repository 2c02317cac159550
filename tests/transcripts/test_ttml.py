"""TTML, IMSC: facts of W3C TTML2 by the names of its attributes, from memory; see the reference readers."""

import pytest

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts import read

TT = (
    '<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter" xml:lang="en" '
    'xmlns:ttm="http://www.w3.org/ns/ttml#metadata" xmlns:tts="http://www.w3.org/ns/ttml#styling"'
)


def ttml(body: str, parameters: str = "", head: str = "") -> Transcript:
    return read(f"{TT} {parameters}>\n<head>{head}</head>\n<body>\n{body}\n</body></tt>".encode())


def cues(transcript: Transcript) -> list[tuple[int, int, str]]:
    return [(cue.start_ms, cue.end_ms, cue.text) for cue in transcript.cues]


@pytest.mark.parametrize(
    ("written", "parameters", "ms"),
    [
        # TTML2, <timeExpression>: clock time, with a fraction or with frames (30 a second by default)
        ("00:00:01", "", 1000),
        ("01:02:03.5", "", 3_723_500),
        ("00:00:01:15", "", 1500),
        ("00:00:01:15", 'ttp:frameRate="25"', 1600),
        ("00:00:01:15.1", 'ttp:frameRate="25" ttp:subFrameRate="2"', 1620),
        # offset time in each metric; without a tick rate or a frame rate a tick is a second
        ("1.5s", "", 1500),
        ("250ms", "", 250),
        ("2m", "", 120_000),
        ("0.5h", "", 1_800_000),
        ("45f", "", 1500),
        ("3t", "", 3000),
        ("100t", 'ttp:tickRate="100"', 1000),
        ("50t", 'ttp:frameRate="25"', 2000),
        # TTML2, ttp:frameRateMultiplier: 30000/1001 frames a second
        ("300f", 'ttp:frameRate="30" ttp:frameRateMultiplier="1000 1001"', 10_010),
        # in use, though not in the standard
        ("1.25", "", 1250),
        ("1:02.5", "", 62_500),
    ],
)
def test_times(written: str, parameters: str, ms: int) -> None:
    assert ttml(f'<div><p begin="{written}" end="9h">go</p></div>', parameters).cues[0].start_ms == ms


def test_times_are_relative_to_the_parent_and_clipped_by_it() -> None:
    # TTML2, timeContainer: in parallel containers, the default; worked out by hand from the rules.
    transcript = ttml(
        '<div begin="00:00:22" end="00:00:30"><p begin="0s" end="1s">Hi,</p>'
        '<p begin="3s" end="5s">hello</p><p begin="5s" end="10s">there</p></div>'
    )
    assert cues(transcript) == [(22_000, 23_000, "Hi,"), (25_000, 27_000, "hello"), (27_000, 30_000, "there")]


def test_sequences_follow_one_another() -> None:
    # TTML2, timeContainer: each child counts from the end of the one before.
    transcript = ttml(
        '<div timeContainer="seq" begin="10s"><p dur="2s">one</p><p begin="1s" dur="2s">two</p>'
        '<p dur="1s">three</p></div>'
    )
    assert cues(transcript) == [(10_000, 12_000, "one"), (13_000, 15_000, "two"), (15_000, 16_000, "three")]


def test_end_and_duration_together_the_earlier_counts() -> None:
    # TTML2, dur: min(dur, end - begin)
    assert cues(ttml('<div><p begin="1s" dur="5s" end="3s">go</p></div>')) == [(1000, 3000, "go")]


def test_timed_spans_time_their_words() -> None:
    transcript = ttml(
        '<div><p begin="1s" end="4s">He <span begin="1s" end="1.5s">goes</span> in<br/>again</p></div>'
    )
    words = [(word.text, word.start_ms, word.end_ms, word.measured) for word in transcript.cues[0].words]
    assert words == [
        ("He", 1000, 2000, False),
        ("goes", 2000, 2500, True),
        ("in", 2500, 2928, False),
        ("again", 2928, 4000, False),
    ]


def test_a_paragraph_without_time_takes_that_of_its_spans() -> None:
    transcript = ttml(
        '<div><p><span begin="4s" end="5s">he</span> <span begin="5s" end="6s">goes</span></p></div>'
    )
    assert cues(transcript) == [(4000, 6000, "he goes")]


def test_agents_are_speakers() -> None:
    # TTML2, ttm:agent, as an element and as an attribute.
    head = (
        '<metadata><ttm:agent xml:id="a" type="person"><ttm:name type="full">Ann\n Bo</ttm:name></ttm:agent>'
        '<ttm:agent xml:id="b" type="person"/></metadata>'
    )
    transcript = ttml(
        '<div ttm:agent="a"><p begin="0s" end="1s">one</p><p begin="1s" end="3s" ttm:agent="b">two</p>'
        '<p begin="3s" end="5s">you <span ttm:agent="b">me</span></p></div>',
        head=head,
    )
    assert [(cue.speaker, cue.text) for cue in transcript.cues] == [
        ("Ann Bo", "one"),
        ("b", "two"),
        ("Ann Bo", "you"),
        ("b", "me"),
    ]


def test_what_is_not_said_is_left_out() -> None:
    # TTML2, tts:ruby; metadata inside content
    transcript = ttml(
        '<metadata><ttm:desc>a file</ttm:desc></metadata><div><p xml:id="p1" begin="0s" end="1s">'
        '<metadata><ttm:desc>aside</ttm:desc></metadata><span tts:ruby="container">'
        '<span tts:ruby="base">背負い投げ</span><span tts:ruby="text">せおいなげ</span></span>!</p></div>'
    )
    assert [(cue.text, cue.label, cue.line) for cue in transcript.cues] == [("背負い投げ!", "p1", 4)]
    assert transcript.language == "en"


def test_declared_encoding() -> None:
    text = (
        '<?xml version="1.0" encoding="iso-8859-15"?>\n'
        + TT
        + '><body><div><p end="1s">2 € è</p></div></body></tt>'
    )
    transcript = read(text.encode("iso-8859-15"))
    assert (transcript.encoding, transcript.cues[0].text, transcript.cues[0].line) == (
        "iso-8859-15",
        "2 € è",
        2,
    )


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (f'{TT}>\n<body><div><p begin="0s" end="1s">go</div></body></tt>', "x:2: broken XML: mismatched tag"),
        (f'{TT}>\n<body><div><p begin="soon">go</p></div></body></tt>', "x:2: not a time: 'soon'"),
        (f'{TT} ttp:frameRate="0"><body/></tt>', "x:1: frameRate is not a whole number above 0"),
        (
            f'{TT} ttp:frameRateMultiplier="1"><body/></tt>',
            "x:1: frameRateMultiplier is not two whole numbers",
        ),
        (f"{TT}><body/></tt>", "x: ttml without a word in it"),
        ('<?xml version="1.0"?>\n<html>0:01 go</html>', "x:2: XML, but not TTML: its root is 'html'"),
        # entities that would grow to gigabytes, and one that would read a file
        (
            '<!DOCTYPE tt [<!ENTITY a "aaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]><tt>&b;</tt>',
            "x:1: XML with a document type",
        ),
        ('<!DOCTYPE tt SYSTEM "file:///etc/passwd"><tt/>', "x:1: XML with a document type"),
        ("<tt>&undefined;</tt>", "x:1: broken XML: undefined entity"),
    ],
)
def test_refused(data: str, problem: str) -> None:
    with pytest.raises(TranscriptError) as caught:
        read(data.encode(), name="x")
    assert str(caught.value).startswith(problem)
