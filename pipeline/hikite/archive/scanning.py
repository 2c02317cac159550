"""A folder's recordings: timed text by its ending, with the bout sheet and the media file beside it."""

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

from pydantic import BaseModel

from hikite.archive.kept import Refusal
from hikite.outputs import FORMATS
from hikite.sheets import SUFFIX as SHEET
from hikite.sheets import find_sheet

ENDINGS = frozenset({".vtt", ".srt", ".ttml", ".dfxp", ".xml", ".json", ".ctm", ".txt"})
"""What is looked at in a folder; a file that is named itself is always looked at."""
MEDIA = (
    ".mp4", ".webm", ".mkv", ".mov", ".m4v", ".ogv", ".mp3", ".m4a", ".ogg", ".oga", ".opus", ".flac", ".wav",
)  # fmt: skip
_OWN = (SHEET, ".gold.json", *(form.suffix for form in FORMATS if form.suffix.count(".") > 1))


class Found(BaseModel, frozen=True, extra="forbid"):
    """One file that may be a recording: its content's hash, and its bout sheet's (empty without one)."""

    path: str
    sha256: str
    sheet: str | None = None
    sheet_sha256: str = ""
    media: str | None = None


def find_files(places: tuple[Path, ...]) -> Iterator[Path]:
    """The files to look at, each once, by folder and name; hidden ones and what hikite wrote are left out."""
    seen: set[Path] = set()
    for place in places:
        whole = place.resolve()
        for file in _walk(whole) if whole.is_dir() else [whole]:
            if file not in seen:
                seen.add(file)
                yield file


def look_at(file: Path) -> Found | Refusal:
    """What stands in a file by its hash, or why it cannot be told."""
    try:
        str(file).encode()
    except UnicodeEncodeError:
        shown = os.fsencode(file).decode("utf-8", "backslashreplace")
        return Refusal(path=shown, reason="its name is not UTF-8 text; rename it")
    try:
        sheet = find_sheet(file)
        return Found(
            path=str(file),
            sha256=_digest(file),
            sheet=str(sheet) if sheet else None,
            sheet_sha256=_digest(sheet) if sheet else "",
            media=_media(file),
        )
    except OSError as error:
        return Refusal(path=str(file), reason=f"cannot be read: {error.strerror}")


def _walk(folder: Path) -> Iterator[Path]:
    for above, below, names in os.walk(folder):
        below[:] = sorted(name for name in below if not name.startswith("."))
        files = [Path(above, name) for name in sorted(names) if not name.startswith(".")]
        yield from (file for file in files if _may_be_one(file.name.lower()) and file.is_file())


def _may_be_one(name: str) -> bool:
    stem, ending = os.path.splitext(name)
    if ending not in ENDINGS or name.endswith(_OWN):
        return False
    # `final.vtt.txt` is a list of times that hikite wrote for `final.vtt`.
    return not (ending == ".txt" and os.path.splitext(stem)[1] in ENDINGS)


def _digest(file: Path) -> str:
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _media(file: Path) -> str | None:
    """The recording itself, where it lies beside its captions under the same name."""
    beside = (file.with_suffix(ending) for ending in MEDIA)
    return next((str(media) for media in beside if media.is_file()), None)
