"""Checking: one note at a time, accepted, corrected, struck out; and taken back."""

from typing import NamedTuple, get_args

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import Change, Decision, DecisionKind, decide, decisions_of, undo
from hikite.archive.kept import EVENTS
from hikite.records import Event
from hikite.web.corrected_names import drop_name, keep_name
from hikite.web.guards import reviewer_of
from hikite.web.pages.answers import Form, back, page, reviewer_needed, room_of
from hikite.web.pages.asked import STATUSES, change_of
from hikite.web.pages.media import sight_of
from hikite.web.pages.readings import reading_of, told_of
from hikite.web.queues import queue_of
from hikite.web.rooms import Reading, Room
from hikite.web.verses import Note, Verse
from hikite.web.wordings import precise

_AROUND = 2
_NEAR_MS = 90_000
_ALIKE = 8
_SHOWN = ("concept", "side", "status", "points", "score_class")
_ON_NOTES = frozenset({"accept", "correct", "reject", "same"})


class Steps(NamedTuple):
    """How many notes are left of the whole, and the events before and behind this one that are not decided.

    Behind the last comes the first.
    """

    left: int
    whole: int
    previous: int | None
    following: int | None


def first(request: Request) -> Response:
    """On to what most needs a look; where nothing is left, a page that says so."""
    room, number = room_of(request), request.path_params["number"]
    with room.opened() as archive:
        reading = reading_of(room, archive, number, reviewer_of(request))
        told = told_of(request, room, archive, reading)
    queue = queue_of(reading)
    if queue and told is None:
        return back(f"/recordings/{number}/check/{queue[0].note.event}")
    return page(request, "done.html", reading=reading, told=told, left=len(queue))


def check(request: Request) -> Response:
    """One note with its verse, the verses around it, and what may be said of it."""
    room, number, event = room_of(request), request.path_params["number"], request.path_params["event"]
    with room.opened() as archive:
        reading = reading_of(room, archive, number, reviewer_of(request))
        told = told_of(request, room, archive, reading)
        found = reading.find(event)
        labels = labels_of(archive)
    if found is None:
        return page(request, "done.html", reading=reading, told=told, left=len(queue_of(reading)))
    chapter, verse, note = found
    at = chapter.verses.index(verse)
    own = _event(reading, note)
    return page(
        request, "check.html", reading=reading, chapter=chapter, verse=verse, note=note, told=told,
        around=chapter.verses[max(at - _AROUND, 0) : at + _AROUND + 1],
        sheet=[one for one in chapter.notes if one.counts],
        reasons=own.reasons[:6], alternatives=own.alternatives[:4], otherwise=own.otherwise[:3],
        labels=labels, same=_alike(reading, note), statuses=STATUSES,
        time=precise(note.start_ms), media=sight_of(reading.kept, room.arrangement.media),
        known=bool(room.lexicon.terms.lookup(note.words)), steps=_steps(reading, event),
    )  # fmt: skip


def decided(request: Request, room: Room, form: Form) -> Response:
    """Take a decision on the note, then on to the next."""
    reviewer = reviewer_needed(request)
    number, event, kind = request.path_params["number"], request.path_params["event"], form("kind_of")
    if kind not in get_args(DecisionKind) or kind not in _ON_NOTES:
        raise HTTPException(400, "That cannot be decided on a note.")
    with room.opened(write=True) as archive:
        reading = reading_of(room, archive, number, reviewer)
        found = reading.find(event)
        if form("kept") != reading.kept.kept_at or found is None:
            raise HTTPException(409, "The recording was read anew meanwhile: look at the page again.")
        following = _steps(reading, event).following
        change = _change(archive, form, kind, found[2])
        if kind in ("accept", "correct"):
            # Of a note that says something else than the machine did, since other words changed it, the
            # difference is told too; fields that say what the machine said are a word for it.
            kind = "correct" if set(change.given) - {"note"} else "accept"
        for earlier in decisions_of(archive, number, reviewer):
            # One's later word on the same note stands in the place of the earlier one.
            if earlier.id == found[2].decision:
                take_back(room, archive, earlier)
        made = decide(archive, reviewer, kind, anchor_of(archive, event), change)  # type: ignore[arg-type]
        if form("alias"):
            file = room.arrangement.alias_file
            keep_name(file, room.lexicon, reading.kept, made, form("concept"))
    on = f"check/{following}" if following is not None else "check"
    return back(f"/recordings/{number}/{on}?after={made.id}")


def undone(request: Request, room: Room, form: Form) -> Response:
    """Take back the decision that is named, else the reviewer's latest on this recording."""
    reviewer, number = reviewer_needed(request), request.path_params["number"]
    with room.opened(write=True) as archive:
        mine = decisions_of(archive, number, reviewer)
        wanted = [one for one in mine if not form("decision") or str(one.id) == form("decision")]
        if not wanted:
            raise HTTPException(409, "There is nothing of yours to take back here.")
        last = take_back(room, archive, wanted[-1])
    to = form("to") or f"/recordings/{number}/check"
    where, _, place = to.partition("#")
    link = f"{where}{'&' if '?' in where else '?'}after={last.id}"
    return back(f"{link}#{place}" if place else link)


def take_back(room: Room, archive: Archive, made: Decision) -> Decision:
    """The reviewer's own decision taken back, and with it the name that was kept for it."""
    drop_name(room.arrangement.alias_file, room.lexicon.terms, made)
    return undo(archive, made.id, made.reviewer)


def _change(archive: Archive, form: Form, kind: str, note: Note) -> Change:
    machines = next(
        (one for one in archive.events((note.event or 0) >> EVENTS) if one.id == note.event), None
    )
    if kind == "correct":
        return change_of(archive, form, machines)
    if kind == "accept" and machines is not None:
        shown = {name: getattr(note, name) for name in _SHOWN} | {"side": note.side or None}
        return Change.model_validate(
            {name: value for name, value in shown.items() if getattr(machines, name) != value}
        )
    if kind == "same":
        if not form("same").isdigit():
            raise HTTPException(400, "Say which other note tells of the same action.")
        return Change(same=anchor_of(archive, int(form("same"))))
    return Change()


def _steps(reading: Reading, event: int) -> Steps:
    whole = [due.note for due in queue_of(reading, whole=True)]
    places = [note.event for note in whole]
    at = places.index(event) if event in places else 0
    before = [note.event for note in whole[:at] if note.decision is None]
    behind = [note.event for note in whole[at + 1 :] if note.decision is None]
    following = behind[0] if behind else before[0] if before else None
    left = sum(note.decision is None for note in whole)
    return Steps(left, len(whole), before[-1] if before else None, following)


def _event(reading: Reading, note: Note) -> Event:
    bout, number = (int(part) for part in note.entry.removeprefix("b").split("."))
    return next(one for one in reading.recording.ledger.bouts if one.number == bout).events[number - 1]


def labels_of(archive: Archive) -> dict[str, str]:
    """What every concept is called, by its id."""
    return dict(archive.db.execute("SELECT id, label FROM concepts"))


def _alike(reading: Reading, note: Note) -> list[tuple[Verse, Note]]:
    """The notes near by that may tell of the same action, those of like kind first."""
    near = [
        (verse, other)
        for chapter in reading.chapters
        for verse in chapter.verses
        for other in verse.notes
        if other.event not in (None, note.event) and abs(other.start_ms - note.start_ms) <= _NEAR_MS
    ]
    near.sort(key=lambda one: (one[1].kind != note.kind, abs(one[1].start_ms - note.start_ms)))
    return near[:_ALIKE]
