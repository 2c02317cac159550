"""Pictures: what they show is read back from the SVG (W3C SVG 2) with the standard library's XML parser."""

import itertools
import struct
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from hikite.evaluate.calibrations import Guess
from hikite.numbers import Ask, Table
from hikite.numbers.rates import wilson
from hikite.numbers.tables import Line
from hikite.plots import PlotError, save
from hikite.plots.reliabilities import reliabilities
from hikite.plots.tallies import minutes, outcomes
from hikite.plots.timelines import score_timeline
from hikite.process import load_lexicon, process
from hikite.sheets import find_sheet, read_sheet
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"
SVG = "{http://www.w3.org/2000/svg}"
LINK = "{http://www.w3.org/1999/xlink}href"

pytest.importorskip("matplotlib", reason="pictures need Matplotlib, the extra 'plots'")


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


def reading(name: str, lexicon):
    file = SAMPLES / name
    return process(read(file), lexicon, read_sheet(find_sheet(file)))


def drawn(drawing, folder: Path) -> ET.Element:
    save(drawing, folder / "picture.svg")
    return ET.parse(folder / "picture.svg").getroot()


def words(root: ET.Element) -> str:
    return "\n".join("".join(text.itertext()) for text in root.iter(f"{SVG}text"))


def group(root: ET.Element, name: str) -> ET.Element:
    (found,) = [one for one in root.iter(f"{SVG}g") if one.get("id") == name]
    return found


def steps(root: ET.Element, name: str) -> tuple[int, int]:
    """How often a line of steps goes on level and how often up."""
    (path,) = group(root, name).iter(f"{SVG}path")
    numbers = [float(part) for part in (path.get("d") or "").replace("M", " ").replace("L", " ").split()]
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    pairs = list(itertools.pairwise(points))
    return sum(b[1] == a[1] and b[0] > a[0] for a, b in pairs), sum(b[1] < a[1] for a, b in pairs)


@pytest.mark.parametrize("name", ["final-79kg.vtt", "cadets-mat-one.vtt", "golden-score.ctm"])
def test_a_timeline_has_a_step_for_every_line_of_the_score(name: str, lexicon, tmp_path: Path) -> None:
    recording = reading(name, lexicon)
    root = drawn(score_timeline(recording), tmp_path)
    told = words(root)
    assert recording.testimony.sheet.title in told
    for bout in recording.ledger.bouts:
        for side in bout.sides:
            lines = [e for e in bout.events if e.counts and e.side == side and e.score_class != "shido"]
            up = steps(root, f"steps-{bout.number}-{side}")[1]
            assert up == len(lines)
            marks = [g for g in root.iter(f"{SVG}g") if (g.get("id") or "").startswith(
                f"score-{bout.number}-{side}-")]  # fmt: skip
            assert len(marks) == len(lines)
            assert f"({side}): " in told
            for one in lines:
                assert (one.score_class or f"+{one.points}") in told


def test_sides_differ_in_stroke_and_mark_not_in_colour_alone(lexicon, tmp_path: Path) -> None:
    """W3C WCAG 2.2, success criterion 1.4.1."""
    root = drawn(score_timeline(reading("final-79kg.vtt", lexicon)), tmp_path)
    strokes = {}
    for side in ("red", "blue"):
        (path,) = group(root, f"steps-1-{side}").iter(f"{SVG}path")
        strokes[side] = "stroke-dasharray" in (path.get("style") or "")
    assert strokes == {"red": False, "blue": True}
    shapes = {}
    for side in ("red", "blue"):
        mark = next(path for path in group(root, f"score-1-{side}-1").iter(f"{SVG}path"))
        shapes[side] = "C" in (mark.get("d") or "")
    assert shapes == {"red": True, "blue": False}


def table(by: str, lines: dict[str, dict[str, float]], **ask: object) -> Table:
    told = tuple(
        Line(keys=(key,), labels=(f"the {key}",), rests_on=1, counts=counts, rates={})
        for key, counts in lines.items()
    )
    return Table(
        ask=Ask(by=by, **ask), unit="tries", names=(by,), lines=told, rests_on=7, left_out=0, placeless=0,
        bouts=2, recordings=1,
    )  # fmt: skip


def height(root: ET.Element, name: str, axis: int) -> float:
    """How far a bar reaches along an axis."""
    (path,) = group(root, name).iter(f"{SVG}path")
    numbers = [float(part) for part in (path.get("d") or "").replace("z", "").replace("M", " ").replace(
        "L", " ").split()]  # fmt: skip
    along = numbers[axis::2]
    return max(along) - min(along)


def test_outcomes_are_as_long_as_their_numbers(tmp_path: Path) -> None:
    counted = {
        "uchi-mata": {"tries": 6.0, "completed": 3.0, "scored": 2.0, "points": 4.0},
        "o-goshi": {"tries": 3.0, "completed": 3.0, "scored": 0.0, "points": 0.0},
    }
    root = drawn(outcomes(table("technique", counted, weighted=True)), tmp_path)
    told = words(root)
    for said in ("the uchi-mata", "scored", "completed, no score", "did not come off", "weighted by its"):
        assert said in told
    lengths = [height(root, f"bar-1-{part}", 0) for part in (1, 2, 3)]
    assert lengths == pytest.approx([lengths[1] * 2, lengths[1], lengths[1] * 3], rel=1e-3)
    assert height(root, "bar-2-2", 0) == pytest.approx(lengths[2], rel=1e-3)
    # Hatched, so that they are told apart in grey.
    assert root.findall(f".//{SVG}pattern") != []


def test_minutes_without_scores_are_shown(tmp_path: Path) -> None:
    counted = {"1": {"scores": 2.0}, "4": {"scores": 4.0}, "1000": {"scores": 1.0}}
    root = drawn(minutes(table("scores", counted)), tmp_path)
    heights = [height(root, f"minute-{at}", 1) for at in (1, 2, 3, 4, 5)]
    one = heights[4]
    assert heights == pytest.approx([2 * one, 0, 0, 4 * one, one], rel=1e-3)
    assert "3–4\n" in words(root)
    assert "golden" in words(root)


def test_reliability_shows_every_kind_and_tenth(tmp_path: Path) -> None:
    guesses = [Guess(about="sides", probability=at / 40, right=at % 3 > 0) for at in range(40)]
    guesses += [Guess(about="scores", probability=0.9, right=True)]
    root = drawn(reliabilities(guesses), tmp_path)
    assert "sides" in words(root)
    assert "40, off by" in words(root)
    assert len(list(group(root, "tenths-sides").iter(f"{SVG}use"))) == 10
    assert wilson(1, 1) is not None
    drawn(reliabilities([]), tmp_path)


def test_the_same_numbers_give_the_same_bytes(lexicon, tmp_path: Path) -> None:
    recording = reading("final-79kg.vtt", lexicon)
    for ending in ("svg", "png"):
        for number in (1, 2):
            save(score_timeline(recording), tmp_path / f"{number}.{ending}")
        assert (tmp_path / f"1.{ending}").read_bytes() == (tmp_path / f"2.{ending}").read_bytes()
    picture = (tmp_path / "1.svg").read_text("utf-8")
    assert "<dc:date>" not in picture
    assert "matplotlib.org/" not in picture
    # PNG, W3C Recommendation: signature, then IHDR with width and height.
    data = (tmp_path / "1.png").read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", data[16:24])[0] == 8 * 144


def test_what_cannot_be_drawn_is_said(tmp_path: Path, monkeypatch) -> None:
    with pytest.raises(PlotError, match="svg or"):
        save(reliabilities([]), tmp_path / "picture.pdf")
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    with pytest.raises(PlotError, match=r"hikite\[plots\]"):
        save(reliabilities([]), tmp_path / "picture.svg")
    assert list(tmp_path.iterdir()) == []
