"""What is seen, as a file to take away."""

from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.archive.searches.hitlists import as_addresses, as_captions, as_csv, as_json, by_recording
from hikite.outputs import FORMATS, record_of
from hikite.web.guards import cleaned, reviewer_of
from hikite.web.pages.answers import room_of
from hikite.web.pages.readings import reading_of
from hikite.web.pages.searches import found_by

_MOST = 4_000
_TYPES = {
    "json": "application/json", "csv": "text/csv", "vtt": "text/vtt", "txt": "text/plain",
    "jsonl": "application/x-ndjson", "markdown": "text/markdown", "captions": "text/vtt",
    "chapters": "text/vtt", "list": "text/plain",
}  # fmt: skip


def hits(request: Request) -> Response:
    """All that a search found: CSV, JSON, addresses, and of one recording captions."""
    form = request.path_params["form"]
    results = found_by(request, skip=0, limit=_MOST)
    found = results.found
    if form == "csv":
        text = as_csv(found)
    elif form == "json":
        text = as_json(found, results.query)
    elif form == "txt":
        text = as_addresses(found)
    elif form == "vtt" and len(groups := by_recording(found)) == 1:
        text = as_captions(groups[0])
    elif form == "vtt":
        raise HTTPException(400, "The hits lie in several recordings, each with times of its own.")
    else:
        raise HTTPException(404, "What is found is given as csv, json, txt or vtt.")
    return _file(text, _TYPES[form], f"found.{form}")


def record(request: Request) -> Response:
    """The record of a recording as the reviewer has it, in a format of `hikite read --to`."""
    wanted = next((form for form in FORMATS if form.name == request.path_params["form"]), None)
    if wanted is None:
        raise HTTPException(404, f"Records are given as {', '.join(form.name for form in FORMATS)}.")
    room = room_of(request)
    reviewer = cleaned(request.query_params.get("as", "")) or reviewer_of(request)
    with room.opened() as archive:
        reading = reading_of(room, archive, request.path_params["number"], reviewer)
    told = record_of(reading.recording, room.lexicon)
    text = wanted.head + wanted.body(reading.recording, told, room.lexicon)
    return _file(text, _TYPES.get(wanted.name, "application/json"), f"{told.recording}{wanted.suffix}")


def _file(text: str, kind: str, name: str) -> Response:
    # RFC 6266: the name may hold anything.
    headers = {"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    return Response(text, media_type=kind, headers=headers)
