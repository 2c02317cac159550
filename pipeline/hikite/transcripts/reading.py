"""A file, a stream or bytes to a transcript, whatever the format and the encoding."""

import hashlib
from pathlib import Path
from typing import IO

from hikite.errors import TranscriptError
from hikite.records import Transcript
from hikite.transcripts.drafts import Format
from hikite.transcripts.encodings import decode
from hikite.transcripts.formats import FORMATS
from hikite.transcripts.mendings import ordered, parted
from hikite.transcripts.repeats import collapsed
from hikite.transcripts.words import cue_of

LARGEST_BYTES = 64 * 1024 * 1024


def read(
    path_or_stream_or_bytes: str | Path | bytes | IO[bytes] | IO[str], *, name: str | None = None
) -> Transcript:
    """The timed commentary of a caption or recogniser file, its cues mended and in order of time.

    The format and the encoding are told by the content. ``name`` stands for the source in the transcript
    and in messages. Raises ``TranscriptError``, and nothing else, for whatever cannot be read.
    """
    given = path_or_stream_or_bytes
    file = name or (str(given) if isinstance(given, str | Path) else getattr(given, "name", None) or "-")
    data = _bytes(given, str(file))
    return _transcript(data, str(file))


def _bytes(given: str | Path | bytes | IO[bytes] | IO[str], file: str) -> bytes:
    try:
        if isinstance(given, bytes):
            data: bytes | str = given
        elif isinstance(given, str | Path):
            with Path(given).open("rb") as stream:
                data = stream.read(LARGEST_BYTES + 1)
        else:
            data = given.read(LARGEST_BYTES + 1)
    except UnicodeDecodeError:
        raise TranscriptError("the stream's text cannot be decoded; open it as bytes", file=file) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise TranscriptError(f"cannot be read: {reason}", file=file) from None
    if isinstance(data, str):
        data = data.encode("utf-8", "replace")
    if len(data) > LARGEST_BYTES:
        raise TranscriptError(f"larger than {LARGEST_BYTES >> 20} MiB, the most that is read", file=file)
    return data


def _transcript(data: bytes, file: str) -> Transcript:
    text, encoding = decode(data, file)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise TranscriptError("empty file", file=file)
    form = _form(text, file)
    rough = form.parse(text, file)
    said = [draft for draft in rough.drafts if draft.pieces]
    if not said:
        raise TranscriptError(f"{form.name} without a word in it", file=file)
    drafts, disorder = ordered(said, file)
    drafts, repeats = collapsed(drafts, file)
    drafts, overlaps = parted(drafts, file)
    return Transcript(
        source=file,
        format=form.name,
        encoding=encoding,
        sha256=hashlib.sha256(data).hexdigest(),
        cues=tuple(map(cue_of, drafts)),
        mendings=tuple(
            sorted([*rough.mendings, *disorder, *repeats, *overlaps], key=lambda mending: mending.line)
        ),
        language=rough.language,
    )


def _form(text: str, file: str) -> Format:
    for form in FORMATS:
        if form.recognises(text):
            return form
    known = ", ".join(form.name for form in FORMATS)
    raise TranscriptError(f"not timed text of a known format ({known})", file=file)
