"""The pictures: well-formed SVG, told in words too, readable in grey, true to the record."""

import re
from xml.etree import ElementTree

import pytest
from handmade import handmade

from hikite.outputs import FORMATS, record_of
from hikite.outputs.plots import HEIGHT, LEFT, TOP, Dot, reliability_plot, score_timelines

SVG = "{http://www.w3.org/2000/svg}"


def marks(picture: ElementTree.Element) -> list[str]:
    """What the marks of the score say when pointed at."""
    shapes = [*picture.iter(f"{SVG}circle"), *picture.iter(f"{SVG}rect")]
    return [title.text or "" for shape in shapes for title in shape.iter(f"{SVG}title")]


# One mark for every line of the score, each saying when, whose and what.
def test_a_mark_for_every_line(record):
    picture = ElementTree.fromstring(score_timelines(record.bouts))
    counted = [entry for bout in record.bouts for entry in bout.entries if entry.counts]
    assert len(marks(picture)) == len(counted)
    for entry in counted:
        worth = entry.score_class or str(entry.points)
        assert any(f"{entry.side} {worth}: {entry.label}" in said for said in marks(picture))


# W3C SVG 2, 5.8 (title and desc) and WCAG 2.2, 1.4.1 (not by colour alone: every colour is a grey).
def test_pictures_are_told_and_grey(record):
    for text in (score_timelines(record.bouts), reliability_plot("final score", [Dot(0.5, 0.4, 3)])):
        picture = ElementTree.fromstring(text)
        assert picture.get("role") == "img"
        assert picture.find(f"{SVG}title") is not None
        assert (picture.findtext(f"{SVG}desc") or "").strip()
        colours = set(re.findall(r"#[0-9a-f]{3,6}", text))
        assert all(len(set(colour[1:])) == 1 for colour in colours)


# An unsure line is hollow, a sure one full.
def test_unsure_lines_are_hollow(lexicon):
    record = record_of(handmade(), lexicon)
    (entry,) = [entry for entry in record.bouts[0].entries if entry.counts]
    for sure, fill in ((0.95, "#111"), (0.5, "#fff")):
        doubted = entry.model_copy(update={"confidence": sure})
        bout = record.bouts[0].model_copy(update={"entries": (doubted,)})
        (mark,) = ElementTree.fromstring(score_timelines([bout])).iter(f"{SVG}circle")
        assert mark.get("fill") == fill


# A perfect dot lies on the diagonal, higher told is further right, higher right further up.
@pytest.mark.parametrize(("told", "right"), [(0.0, 0.0), (0.5, 0.5), (1.0, 1.0), (0.2, 0.9)])
def test_reliability_dots(told, right):
    picture = ElementTree.fromstring(reliability_plot("side", [Dot(told, right, 5)]))
    (dot,) = picture.iter(f"{SVG}circle")
    size = float(next(one for one in picture.iter(f"{SVG}rect") if one.get("stroke")).get("width", "0"))
    assert float(dot.get("cx", "0")) == pytest.approx(LEFT + told * size, abs=0.1)
    assert float(dot.get("cy", "0")) == pytest.approx(TOP + (1 - right) * size, abs=0.1)
    assert TOP + size < HEIGHT


def test_the_timeline_is_a_format(recording, lexicon):
    (form,) = [form for form in FORMATS if form.name == "timeline"]
    text = form.head + form.body(recording, record_of(recording, lexicon), lexicon)
    assert text == score_timelines(record_of(recording, lexicon).bouts)
