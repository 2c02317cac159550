"""One statement: what was missed in it is added, and a bout may begin there or not."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.decisions import Anchor, decide, decisions_of
from hikite.web.guards import reviewer_of
from hikite.web.pages.answers import Form, back, page, reviewer_needed, room_of
from hikite.web.pages.asked import KINDS, STATUSES, change_of
from hikite.web.pages.checks import labels_of, take_back
from hikite.web.pages.media import sight_of
from hikite.web.pages.readings import reading_of
from hikite.web.rooms import Reading, Room
from hikite.web.verses import Chapter, Note, Verse
from hikite.web.wordings import precise

_AROUND = 2


def verse(request: Request) -> Response:
    """The statement among its neighbours, with the forms."""
    room, number = room_of(request), request.path_params["number"]
    with room.opened() as archive:
        reading = reading_of(room, archive, number, reviewer_of(request))
        labels = labels_of(archive)
    chapter, found = _find(reading, request.path_params["verse"])
    at = chapter.verses.index(found)
    words = request.query_params.get("words", "")[:200]
    mended = _mended(reading, request.query_params.get("mend", ""))
    return page(
        request, "verse.html", reading=reading, chapter=chapter, verse=found,
        around=chapter.verses[max(at - _AROUND, 0) : at + _AROUND + 1],
        words=words, kinds=KINDS, statuses=STATUSES, mended=mended,
        time=precise(mended.start_ms) if mended else "",
        labels=labels,
        begins=at == 0 and chapter.number > 1,
        media=sight_of(reading.kept, room.arrangement.media),
    )  # fmt: skip


def added(request: Request, room: Room, form: Form) -> Response:
    """Add what was missed, or open or join bouts here."""
    reviewer, number = reviewer_needed(request), request.path_params["number"]
    kind = form("kind_of")
    with room.opened(write=True) as archive:
        reading = reading_of(room, archive, number, reviewer)
        chapter, found = _find(reading, request.path_params["verse"])
        at_ms = chapter.start_ms if kind == "merge" else _said_at(found, form("words"))
        place = Anchor(sha256=reading.kept.sha256, at_ms=at_ms, words=form("words")[:200])
        if kind == "add":
            change = change_of(archive, form)
            _make_way(room, archive, number, reviewer, form("mend"))
            made = decide(archive, reviewer, "add", place, change)
        elif kind == "split":
            made = decide(archive, reviewer, "split", place)
        elif kind == "merge":
            made = decide(archive, reviewer, "merge", place)
        else:
            raise HTTPException(400, "That cannot be decided on a statement.")
    return back(f"/recordings/{number}?after={made.id}#v{found.number}")


def _mended(reading: Reading, decision: str) -> Note | None:
    """The note that a person added by this decision, which is to be corrected."""
    notes = (note for chapter in reading.chapters for note in chapter.notes)
    return next((one for one in notes if one.event is None and str(one.decision) == decision), None)


def _make_way(room: Room, archive: Archive, number: int, reviewer: str, decision: str) -> None:
    """What was added before taken back, where something else is to stand in its place."""
    if decision:
        mine = decisions_of(archive, number, reviewer)
        before = next((one for one in mine if one.kind == "add" and str(one.id) == decision), None)
        if before is None:
            raise HTTPException(409, "What is to be corrected was taken back meanwhile.")
        take_back(room, archive, before)


def _find(reading: Reading, number: int) -> tuple[Chapter, Verse]:
    places = ((chapter, verse) for chapter in reading.chapters for verse in chapter.verses)
    found = next((place for place in places if place[1].number == number), None)
    if found is None:
        raise HTTPException(404, "There is no such statement in this recording.")
    return found


def _said_at(verse: Verse, words: str) -> int:
    """When the first of the words was said; without words the statement's beginning."""
    spoken = [word for run in verse.runs for word in run.words]
    wanted = [_letters(word) for word in words.split()]
    for at in range(len(spoken)) if wanted else ():
        if [_letters(word.text) for word in spoken[at : at + len(wanted)]] == wanted:
            return spoken[at].at_ms
    return verse.at_ms


def _letters(word: str) -> str:
    return "".join(filter(str.isalnum, word.casefold()))
