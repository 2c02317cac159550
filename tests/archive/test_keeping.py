"""Filling an archive: nothing lost, nothing done twice, whatever becomes of the files."""

import os
import shutil
from pathlib import Path

import pytest

from commentaries import write
from hikite.archive import Archive
from hikite.archive.checks import find_faults
from hikite.archive.errors import ArchiveError
from hikite.archive.keeping import Summary, keep_files
from hikite.archive.stamps import Stamps, load_stamps
from hikite.process import load_lexicon, process
from hikite.sheets import find_sheet, read_sheet
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write(tmp_path / "talk", 3)
    return tmp_path / "talk"


@pytest.fixture
def archive(tmp_path: Path):
    with Archive.open(tmp_path / "bouts.archive", write=True) as opened:
        yield opened


def counts(summary: Summary) -> dict[str, int]:
    told = {
        "new": summary.new, "edited": summary.edited, "again": summary.again, "moved": len(summary.moved),
        "copies": summary.copies, "same": summary.same, "refused": len(summary.refused),
        "vanished": len(summary.vanished), "stale": summary.stale,
    }  # fmt: skip
    return {name: count for name, count in told.items() if count}


def everything(archive: Archive) -> list[object]:
    return [*archive.bouts(), *archive.competitors(), *archive.events()]


def test_what_comes_out_is_what_the_path_made(archive: Archive) -> None:
    keep_files(archive, (SAMPLES,))
    lexicon = load_lexicon()
    for kept in archive.recordings():
        file = Path(kept.path or "")
        assert archive.reading(kept.id) == process(read(file), lexicon, read_sheet(find_sheet(file)))
        assert kept.date == "2026-05-09" or kept.title


def test_a_second_run_does_nothing(archive: Archive, folder: Path) -> None:
    assert counts(keep_files(archive, (folder,))) == {"new": 3}
    before = everything(archive)
    assert counts(keep_files(archive, (folder,))) == {"same": 3}
    assert everything(archive) == before


def test_moved_copied_vanished_and_back(archive: Archive, folder: Path) -> None:
    one, two, three = sorted(folder.glob("*.vtt"))
    keep_files(archive, (folder,))
    ids = {kept.sha256: kept.id for kept in archive.recordings()}
    # A new name: the same recording.
    for file in (one, one.with_name(one.name + ".sheet.toml")):
        file.rename(file.with_name(f"renamed-{file.name}"))
    # A copy of another, with its sheet.
    for file in (two, two.with_name(two.name + ".sheet.toml")):
        shutil.copy(file, file.with_name(f"copy-{file.name}"))
    hidden = three.rename(folder.parent / "elsewhere.vtt")
    told = keep_files(archive, (folder,))
    assert counts(told) == {"moved": 1, "copies": 1, "same": 1, "vanished": 1}
    assert told.vanished == (str(three),)
    assert {kept.sha256: kept.id for kept in archive.recordings()} == ids
    assert [kept.gone for kept in archive.recordings()] == [False, False, True]
    # It is not told again, and what comes back is known.
    assert "vanished" not in counts(keep_files(archive, (folder,)))
    hidden.rename(three)
    assert counts(keep_files(archive, (folder,))) == {"same": 4}
    assert not any(kept.gone for kept in archive.recordings())


def test_two_files_that_swap_names(archive: Archive, folder: Path) -> None:
    one, two, _ = sorted(folder.glob("*.vtt"))
    keep_files(archive, (folder,))
    before = {kept.id: kept.sha256 for kept in archive.recordings()}
    for ending in ("", ".sheet.toml"):
        a, b = (file.with_name(file.name + ending) for file in (one, two))
        a.rename(folder / "x")
        b.rename(a)
        (folder / "x").rename(b)
    keep_files(archive, (folder,))
    assert {kept.id: kept.sha256 for kept in archive.recordings()} == before
    assert counts(keep_files(archive, (folder,))) == {"same": 3}
    assert not find_faults(archive)


def test_an_edited_file_keeps_its_number(archive: Archive, folder: Path) -> None:
    file = min(folder.glob("*.vtt"))
    keep_files(archive, (folder,))
    before = next(kept for kept in archive.recordings() if kept.path == str(file))
    file.write_text(file.read_text("utf-8").replace("circle", "walk"), "utf-8")
    assert counts(keep_files(archive, (folder,))) == {"edited": 1, "same": 2}
    after = archive.recording(before.id)
    assert after is not None
    assert after.sha256 != before.sha256
    assert archive.recording_of(before.sha256) == before.id
    assert len(list(archive.recordings())) == 3


def test_an_edited_sheet_is_read(archive: Archive, folder: Path) -> None:
    keep_files(archive, (folder,))
    beside = min(folder.glob("*.sheet.toml"))
    beside.write_text(beside.read_text("utf-8").replace("Cup", "Bowl").replace("2", "2"), "utf-8")
    text = beside.read_text("utf-8")
    beside.write_text(text.replace("title = ", 'address = "https://example.org/bout.mp4"\ntitle = '), "utf-8")
    assert counts(keep_files(archive, (folder,))) == {"again": 1, "same": 2}
    addresses = [kept.address for kept in archive.recordings()]
    assert addresses.count("https://example.org/bout.mp4") == 1


# What rests on a rule set: the bouts whose sheet names it, and those whose sheet names none.
@pytest.mark.parametrize(
    ("key", "again"),
    [("sambo.sport.2020", 2), ("fila.2005", 0)],
)
def test_only_what_rests_on_a_changed_rule_set(archive: Archive, folder: Path, key: str, again: int) -> None:
    beside = min(folder.glob("*.sheet.toml"))
    beside.write_text(beside.read_text("utf-8").replace('ruleset = "sambo.sport.2020"\n', ""), "utf-8")
    keep_files(archive, (folder,))
    before = everything(archive)
    now = load_stamps()
    later = now.model_copy(update={"each": {**now.each, key: "changed"}, "all_rules": "changed"})
    # The one without a named rule set rests on all of them.
    assert counts(keep_files(archive, stamps=later)) == {"again": again + 1}
    assert counts(keep_files(archive, stamps=later)) == {}
    assert everything(archive) == before


def changed(**values: str) -> Stamps:
    return load_stamps().model_copy(update=values)


def test_other_words_are_told_and_read_again_from_the_archive(archive: Archive, folder: Path) -> None:
    keep_files(archive, (folder,))
    before = [event.model_dump() for event in archive.events()]
    shutil.rmtree(folder)
    elsewhere = folder.parent / "more"
    write(elsewhere, 1, first=7)
    told = keep_files(archive, (elsewhere,), stamps=changed(words="other"))
    assert counts(told) == {"new": 1, "stale": 3}
    assert counts(keep_files(archive, stamps=changed(words="other"))) == {"again": 3}
    assert [event.model_dump() for event in archive.events()][: len(before)] == before
    assert [kept.words for kept in archive.recordings()] == ["other"] * 4


BAD = {
    "empty.vtt": b"",
    "binary.vtt": bytes(range(256)) * 40,
    "no-cues.vtt": b"WEBVTT\n\n",
    "broken.json": b'{"segments": [',
    "deep.json": b"[" * 100_000,
    "prose.txt": b"Dear diary, nothing happened today.",
    "broken.ttml": b"<tt><body><p begin='0s'>",
    "null.srt": b"\0" * 500,
}


def test_bad_files_among_good_ones(archive: Archive, folder: Path) -> None:
    for name, data in BAD.items():
        (folder / name).write_bytes(data)
    write(folder, 1, first=9)
    broken = folder / "bout-00009.vtt.sheet.toml"
    broken.write_text("title = [", "utf-8")
    told = keep_files(archive, (folder,))
    listed = {Path(one.path).name for one in told.refused}
    assert listed == {*BAD, "bout-00009.vtt"}
    assert all(one.reason for one in told.refused)
    assert told.new == 3
    assert {Path(one.path).name for one in archive.refused()} == listed
    # What was put right is kept, and no longer listed; what was deleted is not listed either.
    broken.unlink()
    (folder / "empty.vtt").unlink()
    assert keep_files(archive, (folder,)).new == 1
    assert {Path(one.path).name for one in archive.refused()} == set(BAD) - {"empty.vtt"}
    assert not find_faults(archive, deep=True)


@pytest.mark.skipif(os.name != "posix", reason="names of bytes that are no text are POSIX")
def test_a_name_that_is_no_text(archive: Archive, folder: Path) -> None:
    os.rename(min(folder.glob("*.vtt")), os.fsencode(folder) + b"/\xff\xfe.vtt")
    told = keep_files(archive, (folder,))
    assert told.new == 2
    assert "not UTF-8" in told.refused[0].reason


def test_what_hikite_wrote_is_no_recording(archive: Archive, folder: Path) -> None:
    for name in ("a.vtt.chapters.vtt", "a.vtt.mended.vtt", "a.vtt.record.json", "a.vtt.txt", "a.gold.json"):
        (folder / name).write_text("WEBVTT\n\n00:00.000 --> 00:01.000\nhello\n", "utf-8")
    assert counts(keep_files(archive, (folder,))) == {"new": 3}


def test_several_processes_come_to_the_same(tmp_path: Path) -> None:
    write(tmp_path / "talk", 26, lines=12)
    kept = []
    for jobs in (1, 2):
        with Archive.open(tmp_path / f"{jobs}.archive", write=True) as opened:
            assert counts(keep_files(opened, (tmp_path / "talk",), jobs=jobs)) == {"new": 26}
            assert not find_faults(opened, deep=True)
            names = {one.person: one.name for one in opened.competitors()}
            rows = [
                (opened.recording(e.recording).sha256, e.entry, e.concept, e.status, names.get(e.person))
                for e in opened.events()
            ]
            kept.append(sorted(rows))
    assert kept[0] == kept[1] != []


def test_a_place_that_is_not_there(archive: Archive, tmp_path: Path) -> None:
    with pytest.raises(ArchiveError, match="no such file or folder"):
        keep_files(archive, (tmp_path / "nowhere",))
