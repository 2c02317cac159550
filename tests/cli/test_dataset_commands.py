"""The commands that make data of an archive."""

import csv
import io
from pathlib import Path

import pytest

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import decide


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    from hikite.archive.keeping import keep_files

    file = tmp_path_factory.mktemp("made") / "bouts.archive"
    samples = Path(__file__).parents[2] / "samples"
    with Archive.open(file, write=True) as archive:
        keep_files(archive, (samples / "final-79kg.vtt", samples / "milo.txt"), jobs=1)
        events = [event.id for event in archive.events() if event.kind == "technique"][:2]
        for reviewer in ("Odrun", "Perin"):
            for event in events:
                decide(archive, reviewer, "accept", anchor_of(archive, event))
    return file


@pytest.fixture(autouse=True)
def _archive(made, monkeypatch):
    monkeypatch.setenv("HIKITE_ARCHIVE", str(made))


def test_a_dataset_is_written_once(hikite, tmp_path):
    ran = hikite("dataset", tmp_path / "data", "--as", "lines", "--parts", "50,50,0", "--seed", 3)
    assert ran.code == 0
    assert [line.split(",")[0] for line in ran.out.splitlines()] == [
        "train: 1 recordings", "dev: 1 recordings", "test: 0 recordings"
    ]  # fmt: skip
    assert "test is empty" in ran.err
    assert sorted(file.name for file in (tmp_path / "data").iterdir()) == [
        "README.md",
        "lines",
        "recordings.csv",
    ]
    again = hikite("dataset", tmp_path / "data")
    assert (again.code, again.out) == (1, "")
    assert again.err.strip() == f"{tmp_path / 'data'}: stands there already; name a new folder"


@pytest.mark.parametrize("parts", ["80,20", "a,b,c", "0,0,0", "-1,1,1", "nan,1,1", ""])
def test_parts_that_are_none(hikite, tmp_path, parts):
    ran = hikite("dataset", tmp_path / "data", f"--parts={parts}")
    assert ran.code == 2
    assert "--parts" in ran.err
    assert not (tmp_path / "data").exists()


def test_tables_without_their_library(hikite, tmp_path, monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "pyarrow", None)
    ran = hikite("dataset", tmp_path / "data", "--as", "tables")
    assert ran.code == 1
    assert "hikite[tables]" in ran.err
    assert list(tmp_path.iterdir()) == []


def test_queue(hikite):
    table = hikite("queue", "--count", 5)
    assert table.code == 0
    assert len(table.out.splitlines()) >= 6
    rows = list(csv.DictReader(io.StringIO(hikite("queue", "--count", 5, "--to", "csv").out, newline="")))
    assert len(rows) == 5
    assert all(row["entry"] in table.out for row in rows)


def test_agreement(hikite):
    ran = hikite("agreement", "Odrun", "Perin")
    assert ran.code == 0
    assert "2 judged, 100% the same" in ran.out
    assert "F1 1.00" in ran.out
    missing = hikite("agreement", "Odrun", "Nobody")
    assert missing.code == 1
    assert "no reviewer 'Nobody'" in missing.err


def test_settled(hikite):
    ran = hikite("settled", "--by", "Odrun")
    assert ran.code == 0
    assert "calibration error" in ran.out
    rows = list(csv.DictReader(io.StringIO(hikite("settled", "--to", "csv").out, newline="")))
    assert {row["right"] for row in rows} <= {"0", "1"}
    assert rows
    assert hikite("settled", "--by", "Nobody").code == 1
