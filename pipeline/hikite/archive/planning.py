"""What must be done for each file that was found, told from what the archive holds already."""

import os
import sqlite3
from collections.abc import Iterable, Iterator
from pathlib import Path

from pydantic import BaseModel

from hikite.archive.derivations.deriving import From
from hikite.archive.scanning import Found
from hikite.archive.stamps import Stamps

_SEEN = """
    CREATE TEMP TABLE IF NOT EXISTS seen (
        path TEXT PRIMARY KEY, sha256 TEXT NOT NULL, sheet TEXT, sheet_sha256 TEXT NOT NULL, media TEXT
    ) WITHOUT ROWID
"""


class Place(BaseModel, frozen=True, extra="forbid"):
    """A file that holds a recording's content."""

    path: str
    media: str | None = None


class Work(BaseModel, frozen=True, extra="forbid"):
    """One recording to derive, since which stage, and the files that hold it, the one to read first.

    ``known`` is its number where the archive has its content; ``replaces`` the number of one whose file
    was edited into this.
    """

    since: From
    places: tuple[Place, ...]
    sheet: str | None = None
    sheet_sha256: str = ""
    known: int | None = None
    replaces: int | None = None


class Move(BaseModel, frozen=True, extra="forbid"):
    """A known recording found under another name; ``before`` is None for a copy of what is still there."""

    recording: int
    place: Place
    before: str | None = None


class Plan(BaseModel, frozen=True, extra="forbid"):
    """All that a run will do, and the files that need nothing."""

    work: tuple[Work, ...]
    moves: tuple[Move, ...]
    same: tuple[Place, ...]


def note_seen(db: sqlite3.Connection, found: Iterable[Found]) -> None:
    """Remember, for this connection alone, what was found on disk."""
    db.execute(_SEEN)
    db.execute("DELETE FROM seen")
    # Not `BEGIN IMMEDIATE`: the table is this connection's own, and others may write meanwhile.
    db.execute("BEGIN")
    try:
        db.executemany(
            "INSERT INTO seen VALUES (?, ?, ?, ?, ?)",
            ((one.path, one.sha256, one.sheet, one.sheet_sha256, one.media) for one in found),
        )
    finally:
        db.execute("COMMIT")


def plan(db: sqlite3.Connection, stamps: Stamps) -> Plan:
    """What is to be done for the files noted as seen."""
    work: list[Work] = []
    moves: list[Move] = []
    same: list[Place] = []
    for sha256, group in _groups(db):
        row = db.execute(
            "SELECT id, sheet_sha256, tool, words, rules, ruleset FROM recordings WHERE sha256 = ?", (sha256,)
        ).fetchone()
        if row is None:
            work.append(_new(db, group))
            continue
        owners = _owners(db, row[0], sha256)
        new = [one for one in group if one.path not in owners]
        missing = [path for path, there in owners.items() if not there]
        for one in new:
            before = missing.pop(0) if missing else None
            moves.append(Move(recording=row[0], place=_place(one), before=before))
        same += [_place(one) for one in group if one.path in owners]
        first = _first(group, owners)
        since = _since(row, first, stamps) if first else None
        if first and since:
            work.append(
                Work(
                    since=since,
                    places=(_place(first),),
                    sheet=first.sheet,
                    sheet_sha256=first.sheet_sha256,
                    known=row[0],
                )
            )
    return Plan(work=tuple(work), moves=tuple(moves), same=tuple(same))


def plan_stale(db: sqlite3.Connection, stamps: Stamps) -> tuple[Work, ...]:
    """Every recording read with other words, rules or program than today's, from what the archive holds."""
    found = []
    rows = db.execute("SELECT id, sheet_sha256, tool, words, rules, ruleset FROM recordings ORDER BY id")
    for row in rows.fetchall():
        since = _stale(row, stamps)
        if since:
            found.append(Work(since=since, places=(), sheet_sha256=row[1], known=row[0]))
    return tuple(found)


def vanished(db: sqlite3.Connection, places: tuple[Path, ...]) -> tuple[str, ...]:
    """Known files under these places that are neither seen nor on disk."""
    tops = [str(place.resolve()) for place in places]
    rows = db.execute(
        "SELECT path FROM files WHERE gone_since IS NULL AND path NOT IN (SELECT path FROM seen)"
        " ORDER BY path"
    )
    return tuple(
        path
        for (path,) in rows
        if any(path == top or path.startswith(top.rstrip(os.sep) + os.sep) for top in tops)
        and not os.path.exists(path)
    )


def _groups(db: sqlite3.Connection) -> Iterator[tuple[str, list[Found]]]:
    """The files seen, those of one content together, in the order of their first paths."""
    order = db.execute(
        "SELECT sha256, min(path) AS first FROM seen GROUP BY sha256 ORDER BY first"
    ).fetchall()
    for sha256, _ in order:
        rows = db.execute(
            "SELECT path, sha256, sheet, sheet_sha256, media FROM seen WHERE sha256 = ? ORDER BY path",
            (sha256,),
        )
        yield sha256, [Found(**dict(zip(Found.model_fields, row, strict=True))) for row in rows]


def _new(db: sqlite3.Connection, group: list[Found]) -> Work:
    first = group[0]
    return Work(
        since="file",
        places=tuple(map(_place, group)),
        sheet=first.sheet,
        sheet_sha256=first.sheet_sha256,
        replaces=next((id_ for one in group if (id_ := _edited(db, one.path)) is not None), None),
    )


def _edited(db: sqlite3.Connection, path: str) -> int | None:
    """The recording that this file held until it was edited, if no other file holds it now."""
    row = db.execute(
        "SELECT r.id, r.sha256 FROM files f JOIN recordings r ON r.id = f.recording WHERE f.path = ?", (path,)
    ).fetchone()
    if row is None or db.execute("SELECT 1 FROM seen WHERE sha256 = ?", (row[1],)).fetchone():
        return None
    others = [other for other, there in _owners(db, *row).items() if there and other != path]
    return None if others else int(row[0])


def _owners(db: sqlite3.Connection, recording: int, sha256: str) -> dict[str, bool]:
    """The known files of a recording, the oldest first, and whether each still holds it."""
    rows = db.execute(
        "SELECT f.path, s.sha256 FROM files f LEFT JOIN seen s ON s.path = f.path"
        " WHERE f.recording = ? ORDER BY f.since, f.path",
        (recording,),
    ).fetchall()
    return {path: seen == sha256 if seen else os.path.exists(path) for path, seen in rows}


def _first(group: list[Found], owners: dict[str, bool]) -> Found | None:
    """The file whose bout sheet counts: the oldest that is still there, if it is among those looked at."""
    oldest = next((path for path, there in owners.items() if there), None)
    if oldest is None:
        return group[0]
    return next((one for one in group if one.path == oldest), None)


def _since(row: tuple[object, ...], first: Found, stamps: Stamps) -> From | None:
    if row[1] != first.sheet_sha256 or row[2] != stamps.tool:
        return "file"
    return _stale(row, stamps)


def _stale(row: tuple[object, ...], stamps: Stamps) -> From | None:
    _, _, tool, words, rules, ruleset = row
    if (tool, words) != (stamps.tool, stamps.words):
        return "transcript"
    named = ruleset if isinstance(ruleset, str) else None
    return "testimony" if rules != stamps.rules(named) else None


def _place(found: Found) -> Place:
    return Place(path=found.path, media=found.media)
