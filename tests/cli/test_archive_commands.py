"""The commands that fill, tend and search an archive."""

import json
import shutil
from pathlib import Path

import pytest


@pytest.fixture
def talk(tmp_path: Path, samples: Path) -> Path:
    folder = tmp_path / "talk"
    folder.mkdir()
    for name in ("final-79kg.vtt", "milo.txt"):
        for each in (name, f"{name}.sheet.toml"):
            shutil.copy(samples / each, folder)
    return folder


@pytest.fixture
def archive(tmp_path: Path, monkeypatch) -> Path:
    file = tmp_path / "bouts.archive"
    monkeypatch.setenv("HIKITE_ARCHIVE", str(file))
    return file


def test_kept_told_checked_and_copied(hikite, talk: Path, archive: Path, tmp_path: Path) -> None:
    (talk / "bad.vtt").write_text("no captions here", "utf-8")
    kept = hikite("keep", talk, "--jobs", 1)
    assert (kept.code, kept.out.splitlines()[0]) == (1, "3 looked at; 2 new; 1 refused")
    assert "bad.vtt" in kept.err
    assert hikite("keep", talk).out.startswith("3 looked at; 2 as before; 1 refused")
    (talk / "bad.vtt").unlink()
    (talk / "milo.txt").unlink()
    gone = hikite("keep", talk)
    assert (gone.code, "no longer found, but kept" in gone.err) == (0, True)
    holdings = hikite("holdings")
    assert "2  recordings" in holdings.out
    assert "milo.txt" in holdings.err
    assert hikite("check", "--deep").code == 0
    copy = tmp_path / "copy.archive"
    assert hikite("backup", copy).code == 0
    assert hikite("search", "throw", "--archive", copy).code == 0
    again = hikite("backup", copy)
    assert (again.code, "overwrites nothing" in again.err) == (1, True)


def test_removed(hikite, talk: Path, archive: Path) -> None:
    assert hikite("remove", "1").code == 1
    assert not archive.exists()
    hikite("keep", talk)
    assert hikite("remove", talk / "milo.txt").code == 1
    assert "2  recordings" in hikite("holdings").out
    gone = hikite("remove", talk / "milo.txt", "--yes")
    assert (gone.code, "1 removed; 0 decisions" in gone.out) == (0, True)
    assert "1  recordings" in hikite("holdings").out
    assert (hikite("remove", "7", "--yes").code, (talk / "milo.txt").exists()) == (1, True)


def test_searched(hikite, talk: Path, archive: Path, tmp_path: Path) -> None:
    hikite("keep", talk)
    found = hikite("search", "throw", "by", "Destrow", "--to", "json")
    hits = json.loads(found.out)["hits"]
    assert {hit["competitor"] for hit in hits} == {"Ilmar Destrow"}
    # The same by an option, and an option beside an expression.
    assert json.loads(hikite("search", "throw", "--by", "Destrow", "--to", "json").out)["hits"] == hits
    fewer = json.loads(hikite("search", "throw by Destrow", "--status", "completed", "--to", "json").out)[
        "hits"
    ]
    assert fewer == [hit for hit in hits if hit["status"] == "completed"] != []
    after = hikite("search", "throw", "--after", "grip by same", "--within", 10, "--to", "json")
    assert all(hit["partners"] for hit in json.loads(after.out)["hits"])
    assert hikite("search", "throw", "--to", "csv").out.startswith("recording,title")
    assert "#t=" in hikite("search", "throw", "--to", "addresses").out
    assert "1 found" in hikite("search", "--said", "over the chest", "--rules", "sambo.sport.2020").out
    several = hikite("search", "throw", "--to", "captions")
    assert (several.code, "--out FOLDER" in several.err) == (2, True)
    assert hikite("search", "throw", "--to", "captions", "--out", tmp_path / "hits").code == 0
    assert len(list((tmp_path / "hits").iterdir())) == 2
    assert hikite("search", "ude-garami").code in (0, 1)


def test_explained(hikite, talk: Path, archive: Path) -> None:
    hikite("keep", talk)
    told = hikite("search", "ura nage within 10 s after bear hug by same", "--why").out
    for words in ("whose it was", "after red: bear hug", "how sure", "over the chest”", "#t="):
        assert words in told


# The column is pointed at, and what is wrong is said in a line.
@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("throw when behin",), "column 12: no standing 'behin'"),
        (("throw", "by"), "column 9: a side or somebody's name"),
        (("zzkw",), "no name reads or sounds like 'zzkw'"),
        ((), "say what to look for"),
        (("--clock", "soon"), "a time on the clock"),
        (("--side", "green"), "side"),
        (("throw", "--since", "yesterday"), "since"),
        (("throw", "--rules", "judo.1066"), "no bout here is under 'judo.1066'"),
    ],
)
def test_wrongly_asked(hikite, talk: Path, archive: Path, words: tuple[str, ...], told: str) -> None:
    hikite("keep", talk / "milo.txt")
    asked = hikite("search", *words)
    assert asked.code == 2
    assert told in asked.err


def test_no_archive(hikite, archive: Path) -> None:
    for verb in (("search", "throw"), ("holdings",), ("check",), ("backup", "x")):
        told = hikite(*verb)
        assert (told.code, "no archive here" in told.err) == (1, True)
    archive.write_text("something else entirely, long enough to be looked at " * 20, "utf-8")
    told = hikite("search", "throw")
    assert (told.code, "cannot be opened as an archive" in told.err) == (1, True)
