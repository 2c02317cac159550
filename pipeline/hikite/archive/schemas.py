"""The archive's tables, brought up to date by numbered steps that are written in ``migrations/``."""

import sqlite3
from importlib.resources import files

from hikite.archive.errors import ArchiveError

APPLICATION = 0x68696B69
"""What SQLite's header says the file is for: ``hiki`` in ASCII."""


def steps() -> tuple[str, ...]:
    """The SQL of every migration, the first first."""
    folder = files("hikite.archive") / "migrations"
    named = sorted(each.name for each in folder.iterdir() if each.name.endswith(".sql"))
    return tuple((folder / name).read_text("utf-8") for name in named)


def version_of(db: sqlite3.Connection, file: str) -> int:
    """How many steps the file has taken, 0 for an empty one; ArchiveError for what is no archive."""
    try:
        application = db.execute("PRAGMA application_id").fetchone()[0]
        version: int = db.execute("PRAGMA user_version").fetchone()[0]
        empty = not db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    except sqlite3.DatabaseError as error:
        raise ArchiveError(f"cannot be opened as an archive: {error}", file=file) from None
    if application != APPLICATION and not (empty and application == 0):
        raise ArchiveError("is a database, but no archive of hikite", file=file)
    return version


def migrate(db: sqlite3.Connection, file: str, sql: tuple[str, ...] | None = None) -> int:
    """Take every step not yet taken, each in a transaction of its own; how many there were.

    ArchiveError where a newer hikite made the archive.
    """
    sql = steps() if sql is None else sql
    before = version_of(db, file)
    if before > len(sql):
        raise ArchiveError(
            f"was written by a later hikite (tables {before}, known here up to {len(sql)})", file=file
        )
    for number in range(before + 1, len(sql) + 1):
        # The number is looked at again inside the transaction: another process may have been quicker.
        db.execute("BEGIN IMMEDIATE")
        try:
            if db.execute("PRAGMA user_version").fetchone()[0] < number:
                for statement in _statements(sql[number - 1]):
                    db.execute(statement)
                db.execute(f"PRAGMA application_id = {APPLICATION}")
                db.execute(f"PRAGMA user_version = {number}")
            db.execute("COMMIT")
        except BaseException:
            db.execute("ROLLBACK")
            raise
    return len(sql) - before


def _statements(script: str) -> list[str]:
    """The statements one by one: ``executescript`` would commit in between."""
    found, at = [], ""
    for line in script.splitlines(keepends=True):
        at += line
        if sqlite3.complete_statement(at):
            found.append(at)
            at = ""
    return found
