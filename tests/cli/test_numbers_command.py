"""The command that counts."""

import csv
import io
import json
from pathlib import Path

import pytest


@pytest.fixture
def archive(hikite, tmp_path: Path, samples: Path, monkeypatch) -> Path:
    file = tmp_path / "bouts.archive"
    monkeypatch.setenv("HIKITE_ARCHIVE", str(file))
    hikite("keep", samples / "final-79kg.vtt", samples / "milo.txt", "--jobs", 1)
    return file


def test_table_json_and_csv_tell_the_same(hikite, archive: Path) -> None:
    shown = hikite("numbers", "technique", "--sure", 0.5)
    assert shown.code == 0
    assert "only what is at least 50 % sure, each as one" in shown.out
    told = json.loads(hikite("numbers", "technique", "--sure", 0.5, "--to", "json").out)
    rows = list(csv.DictReader(io.StringIO(hikite("numbers", "technique", "--sure", 0.5, "--to", "csv").out)))
    assert [row["technique"] for row in rows] == [line["labels"][0] for line in told["lines"]] != []
    for row, line in zip(rows, told["lines"], strict=True):
        assert float(row["tries"]) == line["counts"]["tries"]
        assert float(row["scored_low"]) == pytest.approx(line["rates"]["scored"]["low"], abs=1e-6)
        assert (row["sure"], row["weighted"]) == ("0.5", "0")
    assert told["basis"] in " ".join(shown.out.split())


# What is wrong is said in a line; what is nowhere found ends with 1.
@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("technique", "--what", "xqzzw"), 2, "xqzzw"),
        (("technique", "--since", "lately"), 2, "since"),
        (("technique", "--by", "Nobody"), 1, "0 tries"),
        (("belts",), 2, "belts"),
        (("first", "--weighted"), 0, "weighted by its confidence"),
    ],
)
def test_asked(hikite, archive: Path, words: tuple[str, ...], code: int, told: str) -> None:
    ran = hikite("numbers", *words)
    assert ran.code == code
    assert told in " ".join((ran.out + ran.err).split())
