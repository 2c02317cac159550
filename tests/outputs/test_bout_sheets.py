"""Bout-sheet files: what they tell, and what they may not."""

import pytest

from hikite.errors import SheetError
from hikite.records import Competitor, Sheet
from hikite.sheets import find_sheet, read_sheet

WHOLE = """
title = "Three Lighthouses Cup"
date = 2026-05-09
ruleset = "judo.2025"
duration_s = 240
address = "https://example.org/mat-one"

[[competitors]]
side = "white"
name = "Sunniva Karrick"
nation = "Hesperne"
aliases = ["Sunny"]

[[competitors]]
side = "blue"
"""


def test_everything_it_can_tell(tmp_path):
    (tmp_path / "a.vtt.sheet.toml").write_text(WHOLE, "utf-8")
    found = find_sheet(tmp_path / "a.vtt")
    assert found is not None
    karrick = Competitor(side="white", name="Sunniva Karrick", nation="Hesperne", aliases=("Sunny",))
    assert read_sheet(found) == Sheet(
        competitors=(karrick, Competitor(side="blue")),
        ruleset="judo.2025",
        duration_s=240,
        date="2026-05-09",
        title="Three Lighthouses Cup",
        address="https://example.org/mat-one",
    )
    assert find_sheet(tmp_path / "b.vtt") is None


def test_an_empty_sheet_tells_nothing(tmp_path):
    (tmp_path / "s.toml").write_text("", "utf-8")
    assert read_sheet(tmp_path / "s.toml") == Sheet()


FAULTS = [
    ('title = "x"\nrulez = "judo.2025"\n', 2, "unknown key rulez"),
    ('ruleset = "judo.1999"\n', 1, "no rule set 'judo.1999'"),
    ('title = "x"\ndate = "9 May"\n', 2, "date"),
    ("duration_s = 0\n", 1, "duration_s"),
    ('title = "x"\ntitle = "y"\n', 2, "broken TOML"),
    (
        '[[competitors]]\nside = "red"\n\n[[competitors]]\nname = "x"\nside = "green"\n',
        6,
        "competitors.2.side",
    ),
    ('[[competitors]]\nside = "red"\n\n[[competitors]]\nside = "red"\n', 4, "two competitors in red"),
    ('[[competitors]]\nname = "x"\n', 1, "competitors.1.side"),
    ('[[competitors]]\nside = "red"\ncolour = "x"\n', 3, "unknown key competitors.1.colour"),
]


@pytest.mark.parametrize(("text", "line", "problem"), FAULTS)
def test_faults_name_file_and_line(text, line, problem, tmp_path):
    file = tmp_path / "s.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(SheetError) as refused:
        read_sheet(file)
    assert str(refused.value).startswith(f"{file}:{line}: ")
    assert problem in str(refused.value)


def test_no_file_and_no_text(tmp_path):
    (tmp_path / "b.toml").write_bytes(b"\xff\xfe\x00")
    for file in (tmp_path / "none.toml", tmp_path / "b.toml", tmp_path):
        with pytest.raises(SheetError):
            read_sheet(file)
