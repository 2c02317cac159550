"""An archive: one SQLite file, opened by any number of readers while one process writes."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Self, TypeVar
from urllib.parse import quote

from pydantic import BaseModel

from hikite.archive.errors import ArchiveError
from hikite.archive.kept import (
    BOUTS,
    EVENTS,
    KeptBout,
    KeptCompetitor,
    KeptEvent,
    KeptRecording,
    Refusal,
)
from hikite.archive.parts import unpack
from hikite.archive.schemas import migrate, steps, version_of
from hikite.records import Recording

Row = TypeVar("Row", bound=BaseModel)

_PATIENCE_S = 30.0
_RECORDING = """
    SELECT r.id, r.sha256, r.title, r.date, r.address, r.format, r.encoding, r.language, r.duration_ms,
        r.cues, r.tool, r.words, r.rules, r.kept_at, f.path, f.media,
        f.path IS NULL OR f.gone_since IS NOT NULL
    FROM recordings r LEFT JOIN files f ON f.path = (
        SELECT path FROM files WHERE recording = r.id ORDER BY gone_since IS NOT NULL, since, path LIMIT 1)
"""


class Archive:
    """An open archive; close it, or use it as a context. One connection is for one thread at a time."""

    def __init__(self, file: Path, db: sqlite3.Connection) -> None:
        self.file, self.db = file, db

    @classmethod
    def open(cls, file: Path | str, *, write: bool = False, once: bool = False) -> Self:
        """The archive in a file, made or brought up to date where it may be written; else ArchiveError.

        ``once`` is for a single search: of a file that the system does not hold in memory, less is then read
        around what is wanted. Over many searches it would cost a quarter more.
        """
        file = Path(file)
        try:
            db = _writable(file) if write else _readable(file, once)
        except sqlite3.Error as error:
            raise ArchiveError(f"cannot be opened: {error}", file=str(file)) from None
        return cls(file, db)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self.db.close()

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction: all that is done inside is kept, or nothing of it."""
        self.db.execute("BEGIN IMMEDIATE")
        try:
            yield self.db
        except BaseException:
            self.db.execute("ROLLBACK")
            raise
        self.db.execute("COMMIT")

    @contextmanager
    def looking(self) -> Iterator[sqlite3.Connection]:
        """All that is read inside is of one state of the archive, whatever is written meanwhile."""
        if self.db.in_transaction:
            yield self.db
            return
        self.db.execute("BEGIN")
        try:
            yield self.db
        finally:
            self.db.execute("COMMIT")

    def recordings(self) -> Iterator[KeptRecording]:
        """Every recording, in the order they came."""
        for row in self.db.execute(f"{_RECORDING} ORDER BY r.id"):
            yield _made(KeptRecording, row)

    def recording(self, id_: int) -> KeptRecording | None:
        """One recording, nothing where there is none of that number."""
        row = self.db.execute(f"{_RECORDING} WHERE r.id = ?", (id_,)).fetchone()
        return _made(KeptRecording, row) if row else None

    def recording_of(self, sha256: str) -> int | None:
        """The number of the recording that has this content, or had it before its file was edited."""
        for table, column in (("recordings", "id"), ("editions", "recording")):
            row = self.db.execute(f"SELECT {column} FROM {table} WHERE sha256 = ?", (sha256,)).fetchone()
            if row:
                return int(row[0])
        return None

    def reading(self, id_: int) -> Recording:
        """All that the stages made of a recording; ArchiveError where there is none of that number."""
        kept = self.recording(id_)
        lexicon = self.db.execute("SELECT lexicon FROM recordings WHERE id = ?", (id_,)).fetchone()
        if kept is None or lexicon is None:
            raise ArchiveError(f"holds no recording {id_}", file=str(self.file))
        parts = dict(self.db.execute("SELECT stage, body FROM parts WHERE recording = ?", (id_,)))
        whole = unpack(parts, lexicon[0])
        if kept.path is None or kept.path == whole.transcript.source:
            return whole
        transcript = whole.transcript.model_copy(update={"source": kept.path})
        return whole.model_copy(update={"transcript": transcript})

    def bouts(self, recording: int | None = None) -> Iterator[KeptBout]:
        """Every bout, or those of one recording."""
        first, stop = _span(recording, BOUTS)
        query = f"SELECT {', '.join(KeptBout.model_fields)} FROM bouts WHERE id >= ? AND id < ? ORDER BY id"
        for row in self.db.execute(query, (first, stop)):
            yield _made(KeptBout, row)

    def competitors(self, recording: int | None = None) -> Iterator[KeptCompetitor]:
        """Every side of every bout, or of those of one recording."""
        names = ", ".join(KeptCompetitor.model_fields)
        query = f"SELECT {names} FROM competitors WHERE bout >= ? AND bout < ? ORDER BY bout, side"
        for row in self.db.execute(query, _span(recording, BOUTS)):
            yield _made(KeptCompetitor, row)

    def events(self, recording: int | None = None, *, least: float = 0.0) -> Iterator[KeptEvent]:
        """Every event at least so sure, or those of one recording, in the order of their records."""
        names = ", ".join(KeptEvent.model_fields)
        query = f"SELECT {names} FROM events WHERE id >= ? AND id < ? AND confidence >= ? ORDER BY id"
        for row in self.db.execute(query, (*_span(recording, EVENTS), least)):
            yield _made(KeptEvent, row)

    def refused(self) -> tuple[Refusal, ...]:
        """The files that could not be kept, with the reason."""
        rows = self.db.execute("SELECT path, reason FROM refused ORDER BY path")
        return tuple(Refusal(path=path, reason=reason) for path, reason in rows)

    def backup(self, to: Path) -> None:
        """A whole copy in a new file, taken while others read and write; ArchiveError if one stands there."""
        if to.exists():
            raise ArchiveError("stands there already; a backup overwrites nothing", file=str(to))
        part = to.with_name(f".{to.name}.part")
        part.unlink(missing_ok=True)
        try:
            copy = sqlite3.connect(part)
            try:
                self.db.backup(copy)
                copy.execute("PRAGMA journal_mode = DELETE")
            finally:
                copy.close()
            os.replace(part, to)
        except (OSError, sqlite3.Error) as error:
            part.unlink(missing_ok=True)
            raise ArchiveError(f"cannot be written: {error}", file=str(to)) from None


def _writable(file: Path) -> sqlite3.Connection:
    file.parent.mkdir(parents=True, exist_ok=True)
    db = sqlite3.connect(file, timeout=_PATIENCE_S, isolation_level=None)
    version_of(db, str(file))
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA cache_size = -65536")
    migrate(db, str(file))
    return db


def _readable(file: Path, once: bool) -> sqlite3.Connection:
    if not file.is_file():
        raise ArchiveError("no archive here; `hikite keep FOLDER --archive FILE` makes one", file=str(file))
    where = f"file:{quote(str(file.absolute()))}?mode=ro"
    # A file in WAL mode wants a place for its log; on read-only media nobody can be writing to it either.
    if not os.access(file.parent, os.W_OK) and not file.with_name(f"{file.name}-wal").exists():
        where += "&immutable=1"
    db = sqlite3.connect(where, uri=True, timeout=_PATIENCE_S, isolation_level=None)
    taken = version_of(db, str(file))
    if taken != len(steps()):
        later = taken > len(steps())
        what = "a later hikite" if later else "an earlier hikite; `hikite keep` brings it up to date"
        raise ArchiveError(f"was written by {what}", file=str(file))
    db.execute("PRAGMA cache_size = -65536")
    if not once:
        # Read where it lies: no archive is ever made smaller, so that what is mapped stays.
        db.execute(f"PRAGMA mmap_size = {1 << 40}")
    return db


def _span(recording: int | None, bits: int) -> tuple[int, int]:
    return (0, 1 << 62) if recording is None else (recording << bits, (recording + 1) << bits)


def _made(model: type[Row], row: tuple[object, ...]) -> Row:
    return model.model_validate(dict(zip(model.model_fields, row, strict=True)))
