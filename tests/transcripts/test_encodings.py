"""Encodings told by their bytes; Python's own codecs write the files."""

import codecs

import pytest

from hikite.errors import TranscriptError
from hikite.transcripts import read

RUSSIAN = "Захват за отворот, и сразу подхват изнутри! Синий ведёт."
FRENCH = "Il tente un fauchage, bien joué, ça passe à gauche — déséquilibre !"
GERMAN = "Der Weiße geht rückwärts, schöner Fußfeger von links."
JAPANESE = "引き手を取って、背負い投げで一本！"
ENGLISH = "He’s in — four points"


def srt(*payloads: str) -> str:
    return "".join(
        f"{at}\r\n00:00:{at:02d},000 --> 00:00:{at + 1:02d},000\r\n{payload}\r\n\r\n"
        for at, payload in enumerate(payloads, 1)
    )


@pytest.mark.parametrize(
    ("text", "codec", "encoding"),
    [
        (RUSSIAN, "cp1251", "windows-1251"),
        ("Раз", "cp1251", "windows-1251"),
        ("Захват, uchi-mata and подхват", "cp1251", "windows-1251"),
        (FRENCH, "cp1252", "windows-1252"),
        (GERMAN, "cp1252", "windows-1252"),
        (ENGLISH, "cp1252", "windows-1252"),
        ("a naïve attack at the café", "cp1252", "windows-1252"),
        (JAPANESE, "cp932", "shift_jis"),
        ("ハライゴシ", "cp932", "shift_jis"),
        ("and uchi-mata, 内股", "cp932", "shift_jis"),
    ],
)
def test_old_encodings(text: str, codec: str, encoding: str) -> None:
    transcript = read(srt(text, "and on").encode(codec))
    assert (transcript.encoding, transcript.cues[0].text) == (encoding, text)


@pytest.mark.parametrize("text", [RUSSIAN, FRENCH, JAPANESE, "plain"])
@pytest.mark.parametrize(
    ("mark", "codec"),
    [
        (b"", "utf-8"),
        (codecs.BOM_UTF8, "utf-8"),
        (codecs.BOM_UTF16_LE, "utf-16-le"),
        (codecs.BOM_UTF16_BE, "utf-16-be"),
        (b"", "utf-16-le"),
        (b"", "utf-16-be"),
        (codecs.BOM_UTF32_LE, "utf-32-le"),
    ],
)
def test_unicode(text: str, mark: bytes, codec: str) -> None:
    transcript = read(mark + srt(text).encode(codec))
    assert (transcript.encoding, transcript.cues[0].text, transcript.cues[0].line) == (codec, text, 2)


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (b"", "x: empty file"),
        (codecs.BOM_UTF8 + b" \n", "x: empty file"),
        (codecs.BOM_UTF16_LE + b"\x00\xd8", "x: marked as utf-16-le, but is not"),
        (b"PK\x03\x04rest", "x: a zip archive, not timed text"),
        (b"\x00\x00\x00\x20ftypisom", "x: an MP4 recording, not timed text"),
        (b"\x1aE\xdf\xa3", "x: a Matroska or WebM recording, not timed text"),
        (bytes(range(256)) * 8, "x: a binary file, not timed text"),
        (bytes(range(1, 256)) * 8, "x: no known encoding fits; a binary file, or a damaged one"),
    ],
)
def test_refused(data: bytes, problem: str) -> None:
    with pytest.raises(TranscriptError) as caught:
        read(data, name="x")
    assert str(caught.value) == problem
