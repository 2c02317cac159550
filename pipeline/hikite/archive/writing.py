"""One recording into the archive: whole, in one transaction."""

import sqlite3
from collections.abc import Iterable
from datetime import UTC, datetime

from hikite.archive.derivations import Derived
from hikite.archive.derivations.rows import BoutRow, CompetitorRow, EventRow, StatementRow
from hikite.archive.folding import folded
from hikite.archive.kept import BOUTS, EVENTS, Refusal
from hikite.archive.planning import Place
from hikite.archive.stamps import Stamps
from hikite.archive.stores import Archive

_FROM_RECORDING = {"place": "id", "moment": "moment", "previous": "previous", "statement": "statement"}
_EVENT = {_FROM_RECORDING.get(name, name): f":{name}" for name in EventRow._fields} | {
    "id": ":base + :place",
    "moment": ":base + :moment",
    "previous": ":base + :previous",
    "statement": ":base + :statement",
    "bout": ":bouts + :bout",
    "recording": ":recording",
    "day": ":day",
    "person": ":person",
    "opponent": ":opponent",
    "nation": ":nation",
}


_NUMBERED = (
    ("held", "event", EVENTS),
    ("events", "id", EVENTS),
    ("talk", "id", EVENTS),
    ("competitors", "bout", BOUTS),
    ("bouts", "id", BOUTS),
)


def _into(table: str, row: dict[str, str]) -> str:
    return f"INSERT INTO {table} ({', '.join(row)}) VALUES ({', '.join(row.values())})"


_HELD = (
    *("grip", "concept", "status", "event", "side", "standing"),
    *("clock_best_s", "scored", "head", "confidence"),
)
_INTO_EVENTS = _into("events", _EVENT)


def _row(row: tuple[str, ...], **more: str) -> dict[str, str]:
    return {name: f":{name}" for name in row} | more


def now() -> str:
    """The time as it is written into an archive: UTC, ISO 8601, seconds."""
    return datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


def put(
    archive: Archive, derived: Derived, places: tuple[Place, ...], sheet_sha256: str, stamps: Stamps,
    replaces: int | None = None,
) -> int:  # fmt: skip
    """The number of the recording, with its rows in the place of any it had.

    ``places`` are the files that hold this content. ``replaces`` is the recording whose only file was
    edited: it keeps its number, its former content is remembered.
    """
    with archive.writing() as db:
        id_ = _recording(db, derived, sheet_sha256, stamps, replaces)
        clear(db, id_)
        _insert(db, id_, derived)
        for place in places:
            put_file(db, id_, place)
    return id_


def put_tallies(db: sqlite3.Connection) -> None:
    """Count the events anew, for searches to choose their way by."""
    db.execute("DELETE FROM tallies")
    db.execute("INSERT INTO tallies SELECT 'all', '', count(*) FROM events")
    for about in ("concept", "status", "nation", "side", "standing"):
        db.execute(
            f"INSERT INTO tallies SELECT '{about}', {about}, count(*) FROM events WHERE {about} IS NOT NULL"
            f" GROUP BY {about}"
        )
    db.execute(
        "INSERT INTO tallies SELECT 'clock', CAST(clock_best_s / 30 AS INTEGER) * 30, count(*) FROM events"
        " WHERE clock_best_s IS NOT NULL GROUP BY 2"
    )
    db.execute("INSERT INTO tallies SELECT 'grip', grip, count(*) FROM held GROUP BY grip")
    db.execute("INSERT INTO tallies SELECT 'scored', '', count(*) FROM events WHERE scored = 1")
    db.execute("INSERT INTO tallies SELECT 'again', '', count(*) FROM events WHERE attempt > 1")


def put_file(db: sqlite3.Connection, recording: int, place: Place) -> None:
    """A file that holds the recording's content."""
    db.execute(
        "INSERT INTO files (path, recording, media, since) VALUES (?, ?, ?, ?) ON CONFLICT (path) DO UPDATE"
        " SET recording = excluded.recording, media = excluded.media, gone_since = NULL",
        (place.path, recording, place.media, now()),
    )
    db.execute("DELETE FROM refused WHERE path = ?", (place.path,))


def put_refusal(db: sqlite3.Connection, refusal: Refusal) -> None:
    """A file that could not be read, with the reason; what was said of it before is replaced."""
    db.execute(
        "INSERT OR REPLACE INTO refused (path, reason, at) VALUES (?, ?, ?)",
        (refusal.path, refusal.reason, now()),
    )


def _recording(
    db: sqlite3.Connection, derived: Derived, sheet_sha256: str, stamps: Stamps, replaces: int | None
) -> int:
    row = derived.recording
    known = db.execute("SELECT id FROM recordings WHERE sha256 = ?", (row.sha256,)).fetchone()
    if known is None and replaces is not None:
        known = (replaces,)
        db.execute(
            "INSERT OR REPLACE INTO editions (sha256, recording, until)"
            " SELECT sha256, id, ? FROM recordings WHERE id = ?",
            (now(), replaces),
        )
    values = row._asdict() | {
        "sheet_sha256": sheet_sha256,
        "lexicon": derived.lexicon,
        "tool": stamps.tool,
        "words": stamps.words,
        "rules": stamps.rules(row.ruleset),
        "kept_at": now(),
    }
    if known is None:
        made = db.execute(_into("recordings", _row(tuple(values))), values).lastrowid
        assert made is not None
        return made
    settings = ", ".join(f"{name} = :{name}" for name in values)
    db.execute(f"UPDATE recordings SET {settings} WHERE id = :id", values | {"id": known[0]})
    return int(known[0])


def clear(db: sqlite3.Connection, id_: int) -> None:
    """Take away all that was read from a recording; its own row and its files stay."""
    for table, column, bits in _NUMBERED:
        db.execute(
            f"DELETE FROM {table} WHERE {column} >= ? AND {column} < ?", (id_ << bits, (id_ + 1) << bits)
        )
    db.execute("DELETE FROM parts WHERE recording = ?", (id_,))


def _insert(db: sqlite3.Connection, id_: int, derived: Derived) -> None:
    """All that was read from a recording, under the numbers that are its own."""
    if len(derived.events) >> EVENTS or len(derived.talk) >> EVENTS or len(derived.bouts) >> BOUTS:
        raise OverflowError("more events, statements or bouts in one recording than can be numbered")
    own: dict[str, object] = {"base": id_ << EVENTS, "bouts": id_ << BOUTS, "recording": id_}
    own["day"] = derived.recording.day
    db.executemany(
        "INSERT INTO parts (recording, stage, body) VALUES (?, ?, ?)",
        ((id_, stage, body) for stage, body in derived.parts.items()),
    )
    talk = _row(StatementRow._fields[1:], id=":base + :number")
    db.executemany(_into("talk", talk), (row._asdict() | own for row in derived.talk))
    bouts = _row(BoutRow._fields, id=":bouts + :number", recording=":recording")
    db.executemany(_into("bouts", bouts), (row._asdict() | own for row in derived.bouts))
    people = _people(db, derived.competitors)
    _insert_competitors(db, own, derived.competitors, people)
    sides = {row.number: (row.first_side, row.second_side) for row in derived.bouts}
    nations = {(row.bout, row.side): folded(row.nation) for row in derived.competitors}
    for row in derived.events:
        more = {**own, "nation": nations.get((row.bout, row.side or ""), "")}
        db.execute(_INTO_EVENTS, _event(row, more, people, sides))
    _insert_held(db, id_, derived.events)


def _insert_competitors(
    db: sqlite3.Connection,
    own: dict[str, object],
    rows: Iterable[CompetitorRow],
    people: dict[tuple[int, str], int],
) -> None:
    named = _row(
        CompetitorRow._fields, bout=":bouts + :bout", person=":person", folded_nation=":folded_nation"
    )
    db.executemany(
        _into("competitors", named),
        (
            row._asdict()
            | own
            | {"person": people.get((row.bout, row.side)), "folded_nation": folded(row.nation)}
            for row in rows
        ),
    )


def _insert_held(db: sqlite3.Connection, id_: int, rows: Iterable[EventRow]) -> None:
    """Each event once for every grip that was held at it."""
    db.executemany(
        f"INSERT INTO held ({', '.join(_HELD)}) VALUES ({', '.join('?' * len(_HELD))})",
        (
            (
                *(grip, row.concept, row.status, (id_ << EVENTS) + row.place, row.side, row.standing),
                *(row.clock_best_s, row.scored, row.head, row.confidence),
            )
            for row in rows
            for grip in row.grips.split("|")
            if grip
        ),
    )


def _event(
    row: EventRow,
    own: dict[str, object],
    people: dict[tuple[int, str], int],
    sides: dict[int, tuple[str, str]],
) -> dict[str, object]:
    person = opponent = None
    if row.side is not None:
        one, two = sides[row.bout]
        person = people.get((row.bout, row.side))
        opponent = people.get((row.bout, two if row.side == one else one))
    return {**row._asdict(), **own, "person": person, "opponent": opponent}


def _people(db: sqlite3.Connection, rows: Iterable[CompetitorRow]) -> dict[tuple[int, str], int]:
    """By bout and side who it is: names written alike, but for case and accents, are one person's."""
    found: dict[tuple[int, str], int] = {}
    for row in rows:
        key = folded(row.name)
        if key:
            db.execute("INSERT OR IGNORE INTO people (name, folded) VALUES (?, ?)", (row.name, key))
            id_ = db.execute("SELECT id FROM people WHERE folded = ?", (key,)).fetchone()[0]
            found[row.bout, row.side] = id_
    return found
