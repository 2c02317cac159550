"""Bytes to text, whatever the encoding: by mark, by trial, and by what the letters look like."""

import codecs
import re

from hikite.errors import TranscriptError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
# Encodings without a mark, as Python names them and as they are called in the transcript.
_OLD = {"cp1251": "windows-1251", "cp1252": "windows-1252", "cp932": "shift_jis"}
_DECLARED = re.compile(rb"\s*<\?xml[^>]{0,100}encoding\s*=\s*[\"']([A-Za-z0-9_-]{3,20})[\"']")
_DECLARABLE = re.compile(r"utf-8|us-ascii|iso-8859-\d+|windows-125\d|koi8-[ru]|shift_jis|euc-jp|iso-2022-jp")
_SIGNATURES = (
    (b"PK\x03\x04", "a zip archive"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"%PDF", "a PDF document"),
    (b"\x1aE\xdf\xa3", "a Matroska or WebM recording"),
    (b"OggS", "an Ogg recording"),
    (b"RIFF", "a RIFF recording"),
    (b"ID3", "an MP3 recording"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
)
_SAMPLE = 65_536
_WORD = re.compile(r"[^\W\d_]{2,}")
_HALF_WIDTH = re.compile("[\uff61-\uff9f]")


def decode(data: bytes, file: str) -> tuple[str, str]:
    """The text and the name of its encoding; raises ``TranscriptError`` for what is no text."""
    _refuse_binary(data, file)
    text, encoding = _decode(data, file)
    if "\0" in text:
        raise TranscriptError("a binary file, not timed text", file=file)
    return text, encoding


def _refuse_binary(data: bytes, file: str) -> None:
    for signature, what in _SIGNATURES:
        if data.startswith(signature):
            raise TranscriptError(f"{what}, not timed text", file=file)
    if data[4:8] == b"ftyp":
        raise TranscriptError("an MP4 recording, not timed text", file=file)


def _decode(data: bytes, file: str) -> tuple[str, str]:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            text = _strictly(data[len(mark) :], encoding)
            if text is None:
                raise TranscriptError(f"marked as {encoding}, but is not", file=file)
            return text, encoding
    for encoding in (*_declared(data), "utf-8", *_wide(data)):
        text = _strictly(data, encoding)
        # UTF-16 of plain letters is also valid UTF-8, with a zero byte beside each of them.
        if text is not None and "\0" not in text:
            return text, encoding
    if b"\0" in data:
        raise TranscriptError("a binary file, not timed text", file=file)
    return _old(data, file)


def _strictly(data: bytes, encoding: str) -> str | None:
    try:
        return data.decode(encoding)
    except (UnicodeDecodeError, LookupError):
        return None


def _declared(data: bytes) -> tuple[str, ...]:
    """The encoding an XML declaration names, if it is one of the usual ones."""
    found = _DECLARED.match(data[:200])
    name = found[1].decode("ascii").lower() if found else ""
    return (name,) if _DECLARABLE.fullmatch(name) else ()


def _wide(data: bytes) -> tuple[str, ...]:
    """UTF-16 without a mark: times and line ends leave a zero in every second byte of theirs."""
    sample = data[:_SAMPLE]
    even, odd = sample[::2].count(0), sample[1::2].count(0)
    if max(even, odd) * 10 < len(sample) // 2:
        return ()
    return ("utf-16-be",) if even > odd else ("utf-16-le",)


def _old(data: bytes, file: str) -> tuple[str, str]:
    """The likeliest of the one- and two-byte encodings, by the lines that tell them apart."""
    from charset_normalizer import from_bytes

    telling = b"\n".join(line for line in data.split(b"\n") if not line.isascii())
    # Only whole lines are left out, since half a letter would rule its encoding out.
    sample = (
        telling if len(telling) <= _SAMPLE else telling[: telling.rfind(b"\n", 0, _SAMPLE) + 1] or telling
    )
    ranked = [match.encoding for match in from_bytes(sample, cp_isolation=list(_OLD))]
    decoded = [(name, text) for name in [*ranked, *_OLD] if (text := _strictly(data, name)) is not None]
    if not decoded:
        raise TranscriptError("no known encoding fits; a binary file, or a damaged one", file=file)
    name, text = next((pair for pair in decoded if _plausible(*pair)), decoded[0])
    return text, _OLD[name]


def _plausible(encoding: str, text: str) -> bool:
    """Whether the letters look like a language: short files mislead a detector that only counts them."""
    foreign = [word for word in _WORD.findall(text) if not word.isascii()]
    if encoding == "cp932":
        # Read as Shift-JIS, Cyrillic and accented letters turn into half-width kana, which nobody writes.
        kanji = sum(not letter.isascii() for letter in text)
        return len(_HALF_WIDTH.findall(text)) * 3 < kanji
    latin = [word for word in foreign if sum(map(str.isascii, word)) * 2 >= len(word)]
    if encoding == "cp1251":
        # No word mixes Cyrillic with Latin letters: that is an accented letter of a Latin word.
        return bool(foreign) and len(latin) * 4 <= len(foreign)
    # Nor is a Latin word made of accented letters alone: that is Cyrillic.
    return (len(foreign) - len(latin)) * 4 <= len(foreign)
