"""Runs over folders, kept runs, and what a report shows of gains and losses."""

import json

import pytest
from bouts_by_hand import TALK, claim, claimed, gold, label

from hikite.errors import GoldError
from hikite.evaluate import evaluate, report
from hikite.evaluate.namesakes import by_name
from hikite.evaluate.runs import Run, commentary_of
from hikite.ledger import load_rulesets
from hikite.process import Lexicon
from hikite.records import Competitor, Ledger, Recording, Sheet
from hikite.terms import Terms
from hikite.terms.speech import load_speech

CAPTIONS = "WEBVTT\n\n00:01.000 --> 00:02.000\nRed goes for the hip throw.\n"
HIP = label(0, "hip throw", "technique", "o-goshi", side="red", status="attempted")
LAPEL = label(2, "lapel", "grip", "grip:lapel", side="blue", status="taken")
HIP_RIGHT = claim(1, "technique", "o-goshi", side="red", status="attempted")
HIP_BLUE = claim(1, "technique", "o-goshi", side="blue", status="attempted")
LAPEL_RIGHT = claim(21, "grip", "grip:lapel", side="blue", status="taken")


class Told:
    """A path that hears the same claims in every recording, and remembers the sheets it was given."""

    def __init__(self, *claims):
        self.claims, self.sheets = claims, []

    def __call__(self, transcript, lexicon, sheet):
        self.sheets.append(sheet)
        return Recording(
            transcript=transcript,
            talk=TALK,
            mentions=(),
            testimony=claimed(*self.claims),
            ledger=Ledger(bouts=()),
            lexicon="none",
        )


LEXICON = Lexicon(terms=Terms(concepts={}, names=(), ambiguous={}, version="none"), rulesets=load_rulesets())


def evaluated(place, way, **more):
    return evaluate([place], LEXICON, way=way, **more)


@pytest.fixture
def folder(tmp_path):
    gold(tmp_path, [HIP, LAPEL])
    (tmp_path / "tiny.clean.vtt").write_text(CAPTIONS, "utf-8")
    return tmp_path


def test_a_folder_is_run_recording_by_recording(folder):
    run = evaluated(folder, Told(HIP_RIGHT))
    assert [one.file for one in run.recordings] == ["tiny.clean.vtt"]
    assert run.headline.recall == 1 / 2


def test_a_recording_without_the_wanted_variant_is_left_out(folder):
    for name in ("tiny.gold.json", "tiny.base.vtt"):
        (folder / name.replace("tiny", "other")).write_bytes(
            (folder / name.replace("base", "clean")).read_bytes()
        )
    (run,) = evaluated(folder, Told(), variant="base").recordings
    assert run.file == "other.base.vtt"


def test_the_sheet_is_given_or_withheld(folder):
    way = Told()
    evaluated(folder, way)
    evaluated(folder, way, sheet=False)
    assert [sheet and sheet.ruleset for sheet in way.sheets] == ["sambo.sport.2020", None]


def test_of_several_bouts_the_sheet_tells_the_rules_alone(folder):
    path = folder / "tiny.gold.json"
    told = json.loads(path.read_text("utf-8"))
    told |= {"bouts": 2, "competitors": [told["competitors"]] * 2, "final": [told["final"]] * 2}
    path.write_text(json.dumps(told), "utf-8")
    way = Told()
    evaluated(path, way)
    assert way.sheets[0].competitors == ()
    assert way.sheets[0].ruleset == "sambo.sport.2020"


def test_a_recording_of_any_format_may_stand_beside_its_gold(tmp_path):
    for name in ("x.gold.json", "x.srt", "x.srt.sheet.toml", "x.y.vtt"):
        (tmp_path / name).touch()
    assert commentary_of(tmp_path / "x.gold.json", "clean") == tmp_path / "x.srt"


def test_an_empty_folder_is_one_clear_error(tmp_path):
    with pytest.raises(GoldError, match="no \\*\\.gold\\.json here"):
        evaluated(tmp_path, Told())


def test_a_gold_file_that_is_not_there_is_one_clear_error(tmp_path):
    with pytest.raises(GoldError, match="gone: cannot be read: No such file"):
        evaluated(tmp_path / "gone", Told())


def test_gold_files_without_recordings_are_one_clear_error(tmp_path):
    gold(tmp_path, [HIP])
    with pytest.raises(GoldError, match="no recording beside it, clean or of any name"):
        evaluated(tmp_path, Told())


def test_a_kept_run_reads_back(folder):
    run = evaluated(folder, Told(HIP_BLUE))
    assert Run.model_validate_json(run.model_dump_json()) == run


def test_gains_and_losses_name_the_truth(folder):
    before = evaluated(folder, Told(HIP_RIGHT))
    after = evaluated(folder, Told(HIP_BLUE, LAPEL_RIGHT))
    shown = report(after, before)
    # the lapel is found now; the hip throw went to the wrong side
    assert "1 gains, 1 losses" in shown
    assert "- gain: 20.0 s grip: right: truth “lapel”" in shown
    assert "- **loss**: 0.0 s technique: wrong side: truth “hip throw”" in shown
    assert "No label fares otherwise" in report(before, before)


def test_errors_are_listed_with_quote_and_line(folder):
    shown = report(evaluated(folder, Told(HIP_BLUE, claim(31, "grip", "grip:sleeve"))), errors=True)
    assert "grip: missed: truth “lapel” grip:lapel blue taken — Blue has the lapel, a minute left." in shown
    assert "grip: spurious: heard “word” grip:sleeve stated 1.00 — Nothing much now." in shown


def test_the_report_shows_the_hand_counted_figures(folder):
    # two truths, three predictions, two right: precision 0.667, recall 1, F1 0.8; one side of two right
    shown = report(evaluated(folder, Told(HIP_BLUE, LAPEL_RIGHT, claim(31, "grip", "grip:sleeve"))))
    assert "| **techniques and grips** | 0.667 | 1.000 | 0.800 | 2 | 3 | 0.500 (2) | 1.000 (2) | – |" in shown


@pytest.mark.parametrize(
    ("names", "said", "sides"),
    [
        # No colour is said: the labels' red is whoever bears that name in the record.
        (("Soll", "Rann"), "soll throws rann", ["blue", "red"]),
        (("Rann", "Soll"), "rann throws soll", ["red", "blue"]),
        # A recogniser's spelling.
        (("Sol", "Ran"), "sol throws ran", ["blue", "red"]),
        # Nobody is known by name, or a colour tells who is who.
        ((None, None), "he throws him", ["red", "blue"]),
        (("Soll", "Rann"), "soll in red throws rann", ["red", "blue"]),
    ],
)
def test_names_tell_the_sides_where_no_colour_does(tmp_path, names, said, sides):
    true = gold(tmp_path, [HIP, LAPEL], [{"line": 1, "side": "red", "points": 4}])
    one, two = (Competitor(side=side, name=name) for side, name in zip(("red", "blue"), names, strict=True))
    asked = by_name(true, Sheet(competitors=(one, two)), said.split(), load_speech("en"))
    assert [truth.side for truth in asked.truths] == sides
    assert (asked.rows[0].side, asked.finals[0].winner) == (sides[0], sides[0])
    assert asked.finals[0].tallies[sides[0]].points == 4
