"""A recording taken out on purpose: nothing of it is left but what people decided."""

from pathlib import Path

import pytest

from commentaries import write
from hikite.archive import Archive, Query, search
from hikite.archive.anchors import anchor_of, attach
from hikite.archive.checks import find_faults
from hikite.archive.decisions import decide
from hikite.archive.errors import ArchiveError
from hikite.archive.keeping import keep_files
from hikite.archive.removals import find_recording, remove

CAPTIONS = """WEBVTT

00:01.000 --> 00:04.000
Quandroll grips the sleeve and goes in for uchi-mata
"""


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, ...]:
    one = tmp_path / "talk" / "one.vtt"
    one.parent.mkdir()
    one.write_text(CAPTIONS, "utf-8")
    return (one, *write(tmp_path / "talk", 2, lines=15))


@pytest.fixture
def archive(tmp_path: Path, files: tuple[Path, ...]):
    with Archive.open(tmp_path / "bouts.archive", write=True) as opened:
        keep_files(opened, files)
        yield opened


def rows(archive: Archive) -> dict[str, int]:
    named = archive.db.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        " AND name NOT LIKE 'talk_words%'"
    ).fetchall()
    return {name: archive.db.execute(f"SELECT count(*) FROM {name}").fetchone()[0] for (name,) in named}


def test_nothing_is_left_but_decisions(archive: Archive, files: tuple[Path, ...], tmp_path: Path) -> None:
    number = find_recording(archive, str(files[0])).id
    event = next(event.id for event in archive.events(number) if event.kind == "technique")
    made = decide(archive, "Odrun", "accept", anchor_of(archive, event))
    others = [event for event in archive.events() if event.recording != number]
    assert remove(archive, (number,)) == 1
    assert find_faults(archive, deep=True) == ()
    assert list(archive.events()) == others
    assert not search(archive, Query(said=("Quandroll",))).hits
    for table in ("bouts", "parts", "files", "events"):
        assert not archive.db.execute(f"SELECT 1 FROM {table} WHERE recording = ?", (number,)).fetchall()
    # As if it had never been kept: every table has as many rows as that of an archive of the others alone.
    with Archive.open(tmp_path / "others.archive", write=True) as alone:
        keep_files(alone, files[1:])
        assert rows(archive) == rows(alone) | {"decisions": 1}
    # Not even in the bytes of the file, where deleted rows usually stay.
    assert b"uandroll" not in archive.file.read_bytes()
    # Kept again, the decision holds again.
    keep_files(archive, files)
    again = find_recording(archive, str(files[0])).id
    assert [found.decision.id for found in attach(archive, again)] == [made.id]


def test_all_or_nothing(archive: Archive) -> None:
    before = rows(archive)
    with pytest.raises(ArchiveError, match="holds no recording 99"):
        remove(archive, (1, 99))
    assert rows(archive) == before


@pytest.mark.parametrize("named", ["0", "99", "-1", "9" * 30, "nowhere.vtt", ""])
def test_what_is_not_there(archive: Archive, named: str) -> None:
    with pytest.raises(ArchiveError, match="holds no recording"):
        find_recording(archive, named)
