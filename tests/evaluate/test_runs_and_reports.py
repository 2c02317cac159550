"""Runs over folders, kept runs, and what a report shows of gains and losses."""

import json

import pytest
from bouts_by_hand import TALK, claim, claimed, gold, label

from hikite.errors import GoldError
from hikite.evaluate import evaluate, report
from hikite.evaluate.paths import Parts
from hikite.evaluate.runs import Run, commentary_of

HIP = label(0, "hip throw", "technique", "o-goshi", side="red", status="attempted")
LAPEL = label(2, "lapel", "grip", "grip:lapel", side="blue", status="taken")
HIP_RIGHT = claim(1, "technique", "o-goshi", side="red", status="attempted")
HIP_BLUE = claim(1, "technique", "o-goshi", side="blue", status="attempted")
LAPEL_RIGHT = claim(21, "grip", "grip:lapel", side="blue", status="taken")


class Told:
    """Stages that hear the same claims in every recording, and remember the sheet they were given."""

    def __init__(self, *claims):
        self.claims, self.terms, self.sheets = claims, self, []

    def same(self, one, other):
        return one == other

    def run(self, path, sheet):
        self.sheets.append(sheet)
        return Parts(talk=TALK, testimony=claimed(*self.claims))


@pytest.fixture
def folder(tmp_path):
    gold(tmp_path, [HIP, LAPEL])
    (tmp_path / "tiny.clean.vtt").write_text("WEBVTT\n", "utf-8")
    return tmp_path


def test_a_folder_is_run_recording_by_recording(folder):
    run = evaluate([folder], Told(HIP_RIGHT))
    assert [one.file for one in run.recordings] == ["tiny.clean.vtt"]
    assert run.headline.recall == 1 / 2


def test_a_recording_without_the_wanted_variant_is_left_out(folder):
    assert evaluate([folder], Told(), variant="base").recordings == ()


def test_the_sheet_is_given_or_withheld(folder):
    stages = Told()
    evaluate([folder], stages)
    evaluate([folder], stages, sheet=False)
    assert [sheet and sheet.ruleset for sheet in stages.sheets] == ["sambo.sport.2020", None]


def test_of_several_bouts_the_sheet_tells_the_rules_alone(folder):
    path = folder / "tiny.gold.json"
    told = json.loads(path.read_text("utf-8"))
    told |= {"bouts": 2, "competitors": [told["competitors"]] * 2, "final": [told["final"]] * 2}
    path.write_text(json.dumps(told), "utf-8")
    stages = Told()
    evaluate([path], stages)
    assert stages.sheets[0].competitors == ()
    assert stages.sheets[0].ruleset == "sambo.sport.2020"


def test_a_recording_of_any_format_may_stand_beside_its_gold(tmp_path):
    for name in ("x.gold.json", "x.srt", "x.srt.sheet.toml", "x.y.vtt"):
        (tmp_path / name).touch()
    assert commentary_of(tmp_path / "x.gold.json", "clean") == tmp_path / "x.srt"


def test_an_empty_folder_is_one_clear_error(tmp_path):
    with pytest.raises(GoldError, match="no \\*\\.gold\\.json here"):
        evaluate([tmp_path], Told())


def test_a_kept_run_reads_back(folder):
    run = evaluate([folder], Told(HIP_BLUE))
    assert Run.model_validate_json(run.model_dump_json()) == run


def test_gains_and_losses_name_the_truth(folder):
    before = evaluate([folder], Told(HIP_RIGHT))
    after = evaluate([folder], Told(HIP_BLUE, LAPEL_RIGHT))
    shown = report(after, before)
    # the lapel is found now; the hip throw went to the wrong side
    assert "1 gains, 1 losses" in shown
    assert "- gain: 20.0 s grip: right: truth “lapel”" in shown
    assert "- **loss**: 0.0 s technique: wrong side: truth “hip throw”" in shown
    assert "No label fares otherwise" in report(before, before)


def test_errors_are_listed_with_quote_and_line(folder):
    shown = report(evaluate([folder], Told(HIP_BLUE, claim(31, "grip", "grip:sleeve"))), errors=True)
    assert "grip: missed: truth “lapel” grip:lapel blue taken — Blue has the lapel, a minute left." in shown
    assert "grip: spurious: heard “word” grip:sleeve stated 1.00 — Nothing much now." in shown


def test_the_report_shows_the_hand_counted_figures(folder):
    # two truths, three predictions, two right: precision 0.667, recall 1, F1 0.8; one side of two right
    shown = report(evaluate([folder], Told(HIP_BLUE, LAPEL_RIGHT, claim(31, "grip", "grip:sleeve"))))
    assert "| **techniques and grips** | 0.667 | 1.000 | 0.800 | 2 | 3 | 0.500 (2) | 1.000 (2) | – |" in shown
