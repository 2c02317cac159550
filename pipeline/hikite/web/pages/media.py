"""The recording itself, where its file is at hand."""

from pathlib import Path

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, Response

from hikite.archive.kept import KeptRecording
from hikite.archive.scanning import MEDIA
from hikite.web.pages.answers import room_of

_TYPES = {
    ".mp4": "video/mp4", ".m4v": "video/mp4", ".mov": "video/quicktime", ".webm": "video/webm",
    ".mkv": "video/x-matroska", ".ogv": "video/ogg", ".mp3": "audio/mpeg", ".m4a": "audio/mp4",
    ".ogg": "audio/ogg", ".oga": "audio/ogg", ".opus": "audio/ogg", ".flac": "audio/flac",
    ".wav": "audio/wav",
}  # fmt: skip


def media(request: Request) -> Response:
    """The file, whole or the part that was asked for (RFC 9110, range requests)."""
    room = room_of(request)
    with room.opened() as archive:
        kept = archive.recording(request.path_params["number"])
    file = media_of(kept, room.arrangement.media) if kept else None
    if file is None:
        raise HTTPException(404, "The recording itself is not at hand.")
    return FileResponse(file, media_type=_TYPES[file.suffix.lower()], headers={"cache-control": "private"})


def media_of(kept: KeptRecording, folders: tuple[Path, ...] = ()) -> Path | None:
    """A recording's media file: within the folder of its captions or one of ``folders``, links followed."""
    if not kept.media or not kept.path:
        return None
    file = Path(kept.media).resolve()
    homes = [Path(kept.path).resolve().parent, *(folder.resolve() for folder in folders)]
    inside = any(file.is_relative_to(home) for home in homes)
    return file if inside and file.suffix.lower() in MEDIA and file.is_file() else None


def sight_of(kept: KeptRecording, folders: tuple[Path, ...]) -> str:
    """``video``, ``audio`` or, without a file, nothing."""
    file = media_of(kept, folders)
    return _TYPES[file.suffix.lower()].split("/")[0] if file else ""
