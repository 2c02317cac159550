"""A recording as a page to read."""

from typing import NamedTuple

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.decisions import Decision, decisions_of, reviewers
from hikite.web.changes import Changed, changes
from hikite.web.guards import cleaned, reviewer_of
from hikite.web.pages.answers import back, page, room_of
from hikite.web.pages.media import sight_of
from hikite.web.queues import queue_of
from hikite.web.rooms import Reading, Room


class Told(NamedTuple):
    """A decision that was just made or taken back, with what it changed."""

    decision: Decision
    changed: tuple[Changed, ...]


def reading(request: Request) -> Response:
    """The talk with the record in its margin, as the reviewer has it (or whom ``as`` names)."""
    room, shown = room_of(request), cleaned(request.query_params.get("as", ""))
    with room.opened() as archive:
        found = reading_of(room, archive, request.path_params["number"], shown or reviewer_of(request))
        others = reviewers(archive)
        told = None if shown else told_of(request, room, archive, found)
    return page(
        request,
        "reading.html",
        reading=found,
        others=others,
        told=told,
        shown=shown,
        media=sight_of(found.kept, room.arrangement.media),
        left=len(queue_of(found)),
        everything="all" in request.query_params,
    )


def event(request: Request) -> Response:
    """On to the note of a machine's event as the reviewer has it; to the talk where it is struck out."""
    room, number = room_of(request), request.path_params["number"]
    with room.opened() as archive:
        found = reading_of(room, archive, number, reviewer_of(request)).find(request.path_params["event"])
    return back(f"/recordings/{number}?all=1" + (f"#n-{found[2].entry}" if found else ""))


def reading_of(room: Room, archive: Archive, number: int, reviewer: str | None) -> Reading:
    """The recording; a refusal where there is none of that number."""
    found = room.reading(archive, number, reviewer)
    if found is None:
        raise HTTPException(404, "There is no such recording on these shelves.")
    return found


def told_of(request: Request, room: Room, archive: Archive, reading: Reading) -> Told | None:
    """The decision that ``after`` names, with what it changed, or what taking it back changed."""
    after, reviewer = request.query_params.get("after", ""), reviewer_of(request)
    if not (after.isascii() and after.isdigit()) or reviewer is None:
        return None
    number = reading.kept.id
    mine = decisions_of(archive, number, reviewer, undone=True)
    made = next((one for one in mine if str(one.id) == after), None)
    if made is None:
        return None
    if made.undone:
        with_it = room.reading(archive, number, reviewer, besides=made)
        return Told(made, changes(with_it, reading) if with_it else ())
    before = room.reading(archive, number, reviewer, without=made.id)
    return Told(made, changes(before, reading) if before else ())
