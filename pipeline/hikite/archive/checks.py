"""Whether an archive is whole: SQLite's own check, and what must hold between the tables."""

import sqlite3
import zlib

from hikite.archive.parts import unpack
from hikite.archive.stores import Archive

_STAGES = 5
_MUST_BE_EMPTY = {
    "a recording without its stages": (
        "SELECT r.id FROM recordings r WHERE (SELECT count(*) FROM parts p WHERE p.recording = r.id)"
        f" <> {_STAGES}"
    ),
    "a stage of no recording": (
        "SELECT recording FROM parts WHERE recording NOT IN (SELECT id FROM recordings)"
    ),
    "an event of no recording": "SELECT id FROM events WHERE id >> 20 NOT IN (SELECT id FROM recordings)",
    "an event whose number is not its recording's": "SELECT id FROM events WHERE id >> 20 <> recording",
    "an event of no bout": "SELECT id FROM events WHERE bout NOT IN (SELECT id FROM bouts)",
    "an event of a statement that is not there": (
        "SELECT id FROM events WHERE statement IS NOT NULL AND statement NOT IN (SELECT id FROM talk)"
    ),
    "an event of a moment that is not there": (
        "SELECT id FROM events WHERE moment NOT IN (SELECT id FROM events)"
    ),
    "an event on another day than its recording": (
        "SELECT e.id FROM events e JOIN recordings r ON r.id = e.recording WHERE e.day <> r.day"
    ),
    "an event for another nation than its side's": (
        "SELECT e.id FROM events e JOIN competitors c ON c.bout = e.bout AND c.side = e.side"
        " WHERE e.nation <> c.folded_nation"
    ),
    "a grip of no event": "SELECT event FROM held WHERE event NOT IN (SELECT id FROM events)",
    "a statement of no recording": "SELECT id FROM talk WHERE id >> 20 NOT IN (SELECT id FROM recordings)",
    "a competitor of no bout": "SELECT bout FROM competitors WHERE bout NOT IN (SELECT id FROM bouts)",
    "a decision that undoes none": (
        "SELECT id FROM decisions WHERE undoes IS NOT NULL AND undoes NOT IN (SELECT id FROM decisions)"
    ),
    "a file that is kept and refused": (
        "SELECT path FROM files WHERE gone_since IS NULL AND path IN (SELECT path FROM refused)"
    ),
}


def find_faults(archive: Archive, *, deep: bool = False) -> tuple[str, ...]:
    """What is wrong with the archive, in plain words; nothing where it is whole.

    ``deep`` also unpacks every recording and counts its events against the table.
    """
    try:
        return tuple(_faults(archive, deep))
    except sqlite3.DatabaseError as error:
        return (f"cannot be read to the end: {error}",)


def _faults(archive: Archive, deep: bool) -> list[str]:
    db = archive.db
    faults = [row[0] for row in db.execute("PRAGMA integrity_check") if row[0] != "ok"]
    if faults:
        return faults
    faults += [f"{row[0]}: row {row[1]} points to nothing" for row in db.execute("PRAGMA foreign_key_check")]
    for what, query in _MUST_BE_EMPTY.items():
        rows = [str(row[0]) for row in db.execute(f"{query} LIMIT 4")]
        faults += [f"{what}: {', '.join(rows[:3])}{' …' if len(rows) > 3 else ''}"] if rows else []
    faults += _words(archive)
    return faults + (_recordings(archive) if deep else [])


def _words(archive: Archive) -> list[str]:
    """The index of words against the talk: SQLite's own check of it, which only a writer may ask for."""
    db = archive.db
    if not db.execute(
        "SELECT (SELECT count(*) FROM talk) = (SELECT count(*) FROM talk_words_docsize)"
    ).fetchone()[0]:
        return ["the index of words does not cover the talk"]
    try:
        db.execute("INSERT INTO talk_words (talk_words, rank) VALUES ('integrity-check', 1)")
    except sqlite3.OperationalError as error:
        if "readonly" not in str(error):
            return [f"the index of words: {error}"]
    except sqlite3.DatabaseError:
        return ["the index of words does not agree with the talk"]
    return []


def _recordings(archive: Archive) -> list[str]:
    faults = []
    for id_, lexicon in archive.db.execute("SELECT id, lexicon FROM recordings ORDER BY id").fetchall():
        parts = dict(archive.db.execute("SELECT stage, body FROM parts WHERE recording = ?", (id_,)))
        try:
            events = sum(len(bout.events) for bout in unpack(parts, lexicon).ledger.bouts)
        except (zlib.error, ValueError, KeyError) as error:
            faults.append(f"recording {id_} cannot be unpacked: {error!r}")
            continue
        rows = sum(1 for _ in archive.events(id_))
        if rows != events:
            faults.append(f"recording {id_} has {events} events, {rows} in the table")
    return faults
