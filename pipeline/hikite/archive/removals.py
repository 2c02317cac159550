"""A recording taken out on purpose: nothing that was read from it stays, what people decided does."""

from pathlib import Path

from hikite.archive.errors import ArchiveError
from hikite.archive.kept import KeptRecording
from hikite.archive.stores import Archive
from hikite.archive.writing import clear, put_tallies


def find_recording(archive: Archive, named: str) -> KeptRecording:
    """The recording of a file's path, or of a number; ArchiveError where there is none."""
    path = str(Path(named).resolve())
    row = archive.db.execute("SELECT recording FROM files WHERE path = ?", (path,)).fetchone()
    number = row[0] if row else int(named) if named.isascii() and named.isdigit() else 0
    # SQLite's numbers end at 2^63; no recording's comes near.
    found = archive.recording(number) if number < 1 << 43 else None
    if found is None:
        raise ArchiveError(f"holds no recording {named}", file=str(archive.file))
    return found


def remove(archive: Archive, recordings: tuple[int, ...]) -> int:
    """Take these recordings out with their files, bouts, events and words; how many decisions on them stay.

    Decisions hang on the content's hash, so that they hold again if the same file is ever kept again. What
    was deleted is overwritten in the file; backups are copies of their own. ArchiveError where a number is
    not there: then nothing is removed.
    """
    db = archive.db
    db.execute("PRAGMA secure_delete = ON")
    stay = 0
    with archive.writing():
        for id_ in recordings:
            row = db.execute("SELECT sha256 FROM recordings WHERE id = ?", (id_,)).fetchone()
            if row is None:
                raise ArchiveError(f"holds no recording {id_}", file=str(archive.file))
            stay += db.execute(
                "SELECT count(*) FROM decisions WHERE undoes IS NULL AND (sha256 = ? OR sha256 IN"
                " (SELECT sha256 FROM editions WHERE recording = ?))",
                (row[0], id_),
            ).fetchone()[0]
            clear(db, id_)
            db.execute("DELETE FROM recordings WHERE id = ?", (id_,))
        db.execute(
            "DELETE FROM people WHERE id NOT IN (SELECT person FROM competitors WHERE person IS NOT NULL)"
        )
        # The index of words only notes what was deleted, until its parts are put together.
        db.execute("INSERT INTO talk_words (talk_words) VALUES ('optimize')")
        put_tallies(db)
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return stay
