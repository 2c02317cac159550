"""A person's word: added, undone, never changed, found again after every new reading."""

import sqlite3
from pathlib import Path

import pytest

from commentaries import write
from hikite.archive import Archive
from hikite.archive.anchors import anchor_of, attach, compare
from hikite.archive.decisions import Anchor, Change, decide, decisions_of, reviewers, undo
from hikite.archive.errors import ArchiveError
from hikite.archive.keeping import keep_files
from hikite.archive.stamps import load_stamps


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return write(tmp_path / "talk", 1)[0]


@pytest.fixture
def archive(tmp_path: Path, file: Path):
    with Archive.open(tmp_path / "bouts.archive", write=True) as opened:
        keep_files(opened, (file,))
        yield opened


def throws(archive: Archive) -> list[int]:
    return [event.id for event in archive.events() if event.kind == "technique"]


def test_decided_undone_and_again(archive: Archive) -> None:
    event = throws(archive)[0]
    made = decide(
        archive, "Odrun", "correct", anchor_of(archive, event), Change(side=None, concept="o-goshi")
    )
    assert made.change.given == {"concept": "o-goshi", "side": None}
    assert decisions_of(archive, 1) == (made,)
    assert undo(archive, made.id, "Odrun").undone
    assert decisions_of(archive, 1) == ()
    assert [one.undone for one in decisions_of(archive, 1, undone=True)] == [True]
    assert not undo(archive, made.id, "Odrun").undone
    assert decisions_of(archive, 1) == (made,)


def test_rows_are_never_changed(archive: Archive) -> None:
    made = decide(archive, "Odrun", "accept", anchor_of(archive, throws(archive)[0]))
    for statement in ("UPDATE decisions SET kind = 'reject'", "DELETE FROM decisions"):
        with pytest.raises(sqlite3.IntegrityError, match="never"):
            archive.db.execute(statement)
    assert decisions_of(archive, 1) == (made,)


@pytest.mark.parametrize(
    ("kind", "change", "why"),
    [
        ("correct", Change(), "something that is corrected"),
        ("correct", Change(note="hm"), "something that is corrected"),
        ("add", Change(concept="o-goshi"), "kind"),
        ("same", Change(), "same"),
    ],
)
def test_what_says_too_little(archive: Archive, kind, change: Change, why: str) -> None:
    with pytest.raises(ArchiveError, match=why):
        decide(archive, "Odrun", kind, anchor_of(archive, throws(archive)[0]), change)


def test_of_unknown_things(archive: Archive) -> None:
    with pytest.raises(ArchiveError, match="no recording"):
        decide(archive, "Odrun", "accept", Anchor(sha256="0" * 64, at_ms=0))
    with pytest.raises(ArchiveError, match="reviewer"):
        decide(archive, " ", "accept", anchor_of(archive, throws(archive)[0]))
    with pytest.raises(ArchiveError, match="no event"):
        anchor_of(archive, 5)
    made = decide(archive, "Odrun", "accept", anchor_of(archive, throws(archive)[0]))
    with pytest.raises(ArchiveError, match="Odrun's"):
        undo(archive, made.id, "Perin")


def test_a_new_reading_leaves_them_and_they_are_found_again(archive: Archive, file: Path) -> None:
    events = throws(archive)
    for event in events:
        decide(archive, "Odrun", "accept", anchor_of(archive, event))
    before = decisions_of(archive, 1)
    # Read with other words: the same events, numbered anew.
    keep_files(archive, stamps=load_stamps().model_copy(update={"words": "other"}))
    assert decisions_of(archive, 1) == before
    assert [found.event.id for found in attach(archive, 1) if found.event] == events
    # Edited: an event before them is gone, so that they have other numbers.
    file.write_text(file.read_text("utf-8").replace("and they start", "good evening"), "utf-8")
    keep_files(archive, (file,))
    assert decisions_of(archive, 1) == before
    again = attach(archive, 1)
    assert not any(found.adrift for found in again)
    for old, found in zip(before, again, strict=True):
        assert found.event is not None
        assert (found.event.words, found.event.start_ms) == (old.anchor.words, old.anchor.at_ms)
    assert [found.event.id for found in again if found.event] != events


def test_what_is_gone_is_adrift(archive: Archive, file: Path) -> None:
    event = throws(archive)[0]
    words = next(one.words for one in archive.events() if one.id == event)
    decide(archive, "Odrun", "reject", anchor_of(archive, event))
    lines = file.read_text("utf-8").splitlines()
    file.write_text("\n".join("they circle" if words in line.lower() else line for line in lines), "utf-8")
    keep_files(archive, (file,))
    assert [found.adrift for found in attach(archive, 1)] == [True]


def test_two_reviewers(archive: Archive) -> None:
    first, second, third = throws(archive)[:3]
    # The same, something else, and what only one has looked at; the latest word of each counts.
    decide(archive, "Odrun", "reject", anchor_of(archive, first))
    decide(archive, "Odrun", "accept", anchor_of(archive, first))
    decide(archive, "Perin", "accept", anchor_of(archive, first))
    decide(archive, "Odrun", "correct", anchor_of(archive, second), Change(side="red"))
    decide(archive, "Perin", "correct", anchor_of(archive, second), Change(side="blue"))
    decide(archive, "Perin", "reject", anchor_of(archive, third))
    assert [pair.agree for pair in compare(archive, 1, "Odrun", "Perin")] == [True, False, None]
    assert reviewers(archive) == ("Odrun", "Perin")
    assert len(decisions_of(archive, 1, "Perin")) == 3
