"""The command that draws."""

import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

pytest.importorskip("matplotlib", reason="pictures need Matplotlib, the extra 'plots'")


def test_drawn(hikite, tmp_path: Path, samples: Path, monkeypatch) -> None:
    monkeypatch.setenv("HIKITE_ARCHIVE", str(tmp_path / "bouts.archive"))
    hikite("keep", samples / "final-79kg.vtt", "--jobs", 1)
    hikite("evaluate", samples / "final-79kg.gold.json", "--save", tmp_path / "run.json")
    wanted = {
        "timeline": (1, "Ilmar Destrow (red): 4"),
        "outcomes": (None, "at least 50 % sure"),
        "minutes": (None, "lines of the score"),
        "reliability": (tmp_path / "run.json", "told"),
    }
    for picture, (source, said) in wanted.items():
        words = [picture] if source is None else [picture, source]
        more = ["--sure", 0.5] if picture == "outcomes" else []
        file = tmp_path / f"{picture}.svg"
        ran = hikite("plot", *words, *more, "--out", file)
        assert (ran.code, ran.out.strip()) == (0, str(file)), ran.err
        assert said in " ".join("".join(ET.parse(file).getroot().itertext()).split())
    # The archive's recording and its file give the same picture.
    hikite("plot", "timeline", samples / "final-79kg.vtt", "--out", tmp_path / "file.svg")
    assert (tmp_path / "file.svg").read_bytes() == (tmp_path / "timeline.svg").read_bytes()


def test_refused_in_a_line(hikite, tmp_path: Path, samples: Path, monkeypatch) -> None:
    monkeypatch.delenv("HIKITE_ARCHIVE", raising=False)
    monkeypatch.chdir(tmp_path)
    assert hikite("plot", "timeline").code == 2
    assert hikite("plot", "minutes").code == 2
    assert hikite("plot", "timeline", "7").code == 2
    assert hikite("plot", "reliability", samples / "milo.txt").code == 1
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    ran = hikite("plot", "timeline", samples / "final-79kg.vtt")
    assert (ran.code, "hikite[plots]" in ran.err) == (1, True)
