"""A second opinion: libraries in wide use read the same files, and agree on times and text."""

import io
import xml.etree.ElementTree as ElementTree

import pysubs2
import pytest
import webvtt
from ttconv.imsc import reader as imsc_reader
from ttconv.model import ContentDocument
from ttconv.srt import writer as srt_writer

from hikite.records import Transcript
from hikite.transcripts import read, write

VTT = """WEBVTT - Final, mat three

STYLE
::cue { color: lime }

NOTE A comment
of two lines

one
00:00:00.500 --> 00:00:03.912 align:left
<v Anna>Right, they've slapped <i>hands</i>, off we go.

00:00:08.912 --> 00:00:12.255 position:10%
<v Bo>He's <00:00:09.100>in on the leg,
and <00:00:10.000>up.

1:00:17.255 --> 1:00:21.291
Four &amp; two. R&amp;D &lt;quiet&gt;
"""
SRT = (
    "1\r\n00:00:00,500 --> 00:00:03,912\r\nRight, they've slapped <i>hands</i>.\r\n\r\n"
    "2\r\n00:00:08,912 --> 00:00:12,255\r\nHe's in on the leg,\r\nand {\\an8}up.\r\n\r\n"
    "3\r\n01:00:17,255 --> 01:00:21,291\r\nScore: four two\r\n"
)
TTML = """<?xml version="1.0" encoding="UTF-8"?>
<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter" xml:lang="en"
    xmlns:tts="http://www.w3.org/ns/ttml#styling" ttp:frameRate="25" ttp:tickRate="1000" ttp:timeBase="media">
<head><layout><region xml:id="r"/></layout></head>
<body><div region="r" begin="00:00:10.000" end="40s">
<p begin="00:00:00:12" end="2s">Right, off<br/>we go.</p>
<p begin="2.5s" dur="1500t">He's <span tts:fontStyle="italic">in</span> on the leg</p>
<p begin="100f" end="9.25s">and up</p>
</div>
<div region="r" begin="100s" end="104s" timeContainer="par"><p begin="1s" end="9s">Four &amp; two</p></div>
</body></tt>
"""


def found(transcript: Transcript) -> list[tuple[int, int, str]]:
    return [(cue.start_ms, cue.end_ms, cue.text) for cue in transcript.cues]


def milliseconds(stamp: str) -> int:
    hours, minutes, seconds = stamp.split(":")
    return round((int(hours) * 3600 + int(minutes) * 60 + float(seconds)) * 1000)


def by_webvtt(text: str) -> list[tuple[int, int, str]]:
    captions = webvtt.from_buffer(io.StringIO(text)).captions
    return [(milliseconds(c.start), milliseconds(c.end), " ".join(c.text.split())) for c in captions]


def by_pysubs2(text: str, form: str) -> list[tuple[int, int, str]]:
    events = pysubs2.SSAFile.from_string(text, format_=form).events
    return [(event.start, event.end, " ".join(event.plaintext.split())) for event in events]


def imsc_model(text: str) -> ContentDocument:
    model = imsc_reader.to_model(ElementTree.ElementTree(ElementTree.fromstring(text)))
    assert model is not None
    return model


def by_ttconv(text: str) -> list[tuple[int, int, str]]:
    return by_pysubs2(srt_writer.from_model(imsc_model(text)), "srt")


def test_webvtt() -> None:
    ours = found(read(VTT.encode()))
    theirs = by_webvtt(VTT)
    assert len(ours) == 3
    # the library leaves the character references of the text as they are written
    assert ours[:2] == theirs[:2]
    assert ours[2] == (3_617_255, 3_621_291, "Four & two. R&D <quiet>")
    assert theirs[2][:2] == ours[2][:2]


def test_webvtt_settings_names_and_voices() -> None:
    for cue, caption in zip(
        read(VTT.encode()).cues, webvtt.from_buffer(io.StringIO(VTT)).captions, strict=True
    ):
        assert (cue.label or None, cue.speaker or None) == (caption.identifier or None, caption.voice or None)


def test_subrip() -> None:
    assert len(found(read(SRT.encode()))) == 3
    assert found(read(SRT.encode())) == by_pysubs2(SRT, "srt")


def test_ttml() -> None:
    ours = found(read(TTML.encode()))
    assert ours == [
        (10_480, 12_000, "Right, off we go."),
        (12_500, 14_000, "He's in on the leg"),
        (14_000, 19_250, "and up"),
        (101_000, 104_000, "Four & two"),
    ]
    # Every container has its end here: the library loses what stands in one that begins but does not end.
    assert ours == by_ttconv(TTML)


@pytest.mark.parametrize("text", [VTT, SRT])
def test_what_is_written_is_read_by_others(text: str) -> None:
    transcript = read(text.encode())
    timed = [(start, end) for start, end, _ in found(transcript)]
    assert [cue[:2] for cue in by_webvtt(write(transcript, "webvtt"))] == timed
    assert [cue[:2] for cue in by_pysubs2(write(transcript, "srt"), "srt")] == timed
    body = imsc_model(write(transcript, "ttml")).get_body()
    paragraphs = [paragraph for division in body for paragraph in division]
    assert [(round(p.get_begin() * 1000), round(p.get_end() * 1000)) for p in paragraphs] == timed
