"""The file itself: versions, other files, readers beside a writer, faults that are found."""

import os
import sqlite3
from pathlib import Path

import pytest

from commentaries import write
from hikite.archive import Archive, Query, search
from hikite.archive.checks import find_faults
from hikite.archive.errors import ArchiveError
from hikite.archive.keeping import keep_files
from hikite.archive.schemas import APPLICATION, migrate, steps


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    file = tmp_path / "bouts.archive"
    with Archive.open(file, write=True) as archive:
        keep_files(archive, write(tmp_path / "talk", 2, lines=20))
    return file


def test_steps_are_taken_once_and_in_order(tmp_path: Path) -> None:
    db = sqlite3.connect(tmp_path / "x", isolation_level=None)
    first, second = (
        "CREATE TABLE a (b);\nINSERT INTO a VALUES (1);\n",
        "-- more\nALTER TABLE a ADD COLUMN c;\n",
    )
    assert migrate(db, "x", (first,)) == 1
    assert migrate(db, "x", (first, second)) == 1
    assert migrate(db, "x", (first, second)) == 0
    assert db.execute("SELECT b, c FROM a").fetchall() == [(1, None)]
    # A step that fails leaves nothing of itself.
    with pytest.raises(sqlite3.OperationalError):
        migrate(db, "x", (first, second, "CREATE TABLE d (e);\nINSERT INTO nowhere VALUES (1);\n"))
    assert db.execute("PRAGMA user_version").fetchone() == (2,)
    assert migrate(db, "x", (first, second, "CREATE TABLE d (e);\n")) == 1
    with pytest.raises(ArchiveError, match="later hikite"):
        migrate(db, "x", (first,))


def test_versions(kept: Path) -> None:
    db = sqlite3.connect(kept)
    assert db.execute("PRAGMA application_id").fetchone() == (APPLICATION,)
    assert db.execute("PRAGMA user_version").fetchone() == (len(steps()),)
    for version, whose in ((len(steps()) + 1, "a later"), (len(steps()) - 1, "an earlier")):
        db.execute(f"PRAGMA user_version = {version}")
        db.commit()
        with pytest.raises(ArchiveError, match=whose):
            Archive.open(kept)


@pytest.mark.parametrize("write", [True, False])
def test_other_files_are_left_alone(tmp_path: Path, write: bool) -> None:
    other = tmp_path / "other.db"
    db = sqlite3.connect(other)
    db.execute("CREATE TABLE recipes (name)")
    db.commit()
    before = other.read_bytes()
    with pytest.raises(ArchiveError, match="no archive of hikite"):
        Archive.open(other, write=write)
    assert other.read_bytes() == before


def test_a_reader_keeps_its_state_while_another_writes(kept: Path, tmp_path: Path) -> None:
    with Archive.open(kept) as reader, Archive.open(kept, write=True) as writer:
        with reader.looking():
            before = [event.id for event in reader.events()]
            keep_files(writer, write(tmp_path / "more", 1, first=5, lines=20))
            assert [event.id for event in reader.events()] == before
        assert len(list(reader.recordings())) == 3
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            reader.db.execute("DELETE FROM events")


def test_a_copy_is_whole(kept: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.archive"
    with Archive.open(kept) as archive:
        archive.backup(copy)
        with Archive.open(copy, write=True) as other:
            assert list(other.events()) == list(archive.events())
            assert find_faults(other, deep=True) == ()


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write anywhere")
def test_on_a_medium_that_cannot_be_written(kept: Path) -> None:
    kept.parent.chmod(0o500)
    try:
        with Archive.open(kept) as archive:
            assert search(archive, Query(side="red")).hits
    finally:
        kept.parent.chmod(0o700)


# What must hold, broken by hand, and what is said of it.
@pytest.mark.parametrize(
    ("damage", "told"),
    [
        ("DELETE FROM parts WHERE stage = 'ledger' AND recording = 1", "without its stages"),
        ("DELETE FROM bouts", "an event of no bout"),
        ("DELETE FROM talk_words_docsize WHERE id % 3 = 0", "index of words"),
        ("UPDATE talk_words_data SET block = zeroblob(length(block)) WHERE id > 10", "index"),
        ("UPDATE events SET day = day + 1 WHERE id % 7 = 0", "on another day"),
        ("UPDATE parts SET body = x'00' WHERE stage = 'ledger'", "cannot be unpacked"),
        ("DELETE FROM events WHERE number = 3", "in the table"),
        ("UPDATE events SET nation = 'nowhere' WHERE side = 'red'", "another nation"),
    ],
)
def test_faults_are_found(kept: Path, damage: str, told: str) -> None:
    with Archive.open(kept, write=True) as archive:
        assert find_faults(archive, deep=True) == ()
        archive.db.execute("PRAGMA foreign_keys = OFF")
        archive.db.execute(damage)
        assert told in " ".join(find_faults(archive, deep=True))


def test_bytes_that_are_spoilt(kept: Path) -> None:
    data = bytearray(kept.read_bytes())
    data[8192:40960] = bytes(32768)
    kept.write_bytes(data)
    with Archive.open(kept, write=True) as archive:
        assert find_faults(archive) != ()
