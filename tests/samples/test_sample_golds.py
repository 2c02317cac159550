"""The samples' own truth: complete, consistent with itself and possible under the rules it names."""

import re
import tomllib
from pathlib import Path

import pytest

from hikite.evaluate.golds import Gold, Row, read_gold
from hikite.evaluate.runs import commentary_of
from hikite.ledger import load_rulesets
from hikite.records import Sheet, Tally
from hikite.terms import load_terms
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"
GOLDS = {
    path.name.removesuffix(".gold.json"): read_gold(path) for path in sorted(SAMPLES.glob("*.gold.json"))
}
EVERY = pytest.mark.parametrize("gold", GOLDS.values(), ids=GOLDS.keys())
RULESETS = load_rulesets()


def talk_file(gold: Gold) -> Path:
    found = commentary_of(SAMPLES / f"{gold.id}.gold.json", "clean")
    assert found is not None, f"no commentary beside {gold.id}"
    return found


def rules_of(gold: Gold):
    return RULESETS[gold.sheets[0].ruleset]


def rows_of(gold: Gold, bout: int, until_line: int | None = None) -> list[Row]:
    mine = [row for row in gold.rows if row.bout == bout]
    return mine if until_line is None else [row for row in mine if row.line <= until_line]


def totals(gold: Gold, rows: list[Row]) -> dict[str, dict[str, int]]:
    """What the rows add up to, by side."""
    found: dict[str, dict[str, int]] = {side.side: {} for side in gold.sheets[0].competitors}
    for row in rows:
        key = (row.score or "points").replace("-", "_")
        found[row.side][key] = found[row.side].get(key, 0) + (row.points or 1)
    return found


def test_the_samples_cover_what_they_are_meant_to():
    formats = {talk_file(gold).suffix for gold in GOLDS.values()}
    assert formats >= {".vtt", ".srt", ".ttml", ".txt", ".json", ".ctm"}
    rulesets = [gold.sheets[0].ruleset for gold in GOLDS.values()]
    assert set(rulesets) == {
        "sambo.sport.2020",
        "sambo.sport.legacy",
        "judo.2018",
        "judo.2025",
        "uww.fs",
        "uww.gr",
    }
    assert rulesets.count("sambo.sport.2020") == 2
    assert any(len({line.speaker for line in gold.lines}) == 2 for gold in GOLDS.values())
    assert any(len(gold.finals) == 2 for gold in GOLDS.values())


@EVERY
def test_a_sheet_stands_beside_each_recording(gold):
    talk = talk_file(gold)
    sheet = Sheet.model_validate(tomllib.loads(Path(f"{talk}.sheet.toml").read_text("utf-8")))
    assert sheet.ruleset == gold.sheets[0].ruleset
    assert sheet.date is not None
    # two bouts have four competitors: such a sheet leaves them to the talk
    assert sheet.competitors == (gold.sheets[0].competitors if len(gold.sheets) == 1 else ())


@EVERY
def test_the_ledger_adds_up_to_the_final_score(gold):
    for number, final in enumerate(gold.finals, start=1):
        added = totals(gold, rows_of(gold, number))
        for side, tally in final.tallies.items():
            told = {key: count for key, count in tally if count}
            assert added[side] == told, f"bout {number}, {side}"


@EVERY
def test_every_stated_score_is_the_running_one(gold):
    asked = 0
    for truth in gold.truths:
        if truth.kind != "stated_score" or truth.status != "stated" or truth.misspoken:
            continue
        added = totals(gold, rows_of(gold, truth.bout, truth.line))
        for side, tally in truth.tallies.items():
            for key, count in Tally.model_validate(tally):
                if count is not None:
                    assert added[side].get(key, 0) == count, f"line {truth.line}: {truth.said}"
                    asked += 1
    assert asked


@EVERY
def test_throws_and_holds_score_what_the_rules_give(gold):
    # the throw matrix and hold times are those of the rule-set files, each row with its source
    rules = rules_of(gold)
    for row in gold.rows:
        throw = re.search(r": (\w+), thrower (down|standing)", row.why)
        hold = re.search(r"hold of (\d+) s", row.why)
        if throw:
            fell = throw[2] == "down"
            gives = [t.gives for t in rules.throws if throw[1] in t.landing and t.fell is fell]
            assert gives[0] == row.points, row.why
        elif hold:
            golden = "golden" in row.why
            fits = [h for h in rules.holds if h.seconds <= int(hold[1]) and (golden or not h.golden)]
            assert max(fits, key=lambda h: h.seconds).gives == (row.score or row.points), row.why


@EVERY
def test_every_value_is_one_the_rules_know(gold):
    rules = rules_of(gold)
    steps = [step.gives for ladder in rules.ladders for step in ladder.steps]
    known = {row.gives for row in (*rules.throws, *rules.holds, *rules.awards)} | set(steps) | {"shido"}
    for row in gold.rows:
        assert (row.score or row.points) in known, row


@EVERY
def test_no_bout_goes_on_after_it_is_won(gold):
    leads = [end.lead for end in rules_of(gold).ends if end.lead is not None]
    if not leads:
        return
    for number, final in enumerate(gold.finals, start=1):
        rows = rows_of(gold, number)
        for index in range(1, len(rows) + 1):
            points = [side.get("points", 0) for side in totals(gold, rows[:index]).values()]
            clear = abs(points[0] - points[1]) >= min(leads)
            assert clear == (final.by == "superiority" and index == len(rows))


@EVERY
def test_the_winner_is_ahead_unless_the_bout_was_stopped(gold):
    for final in gold.finals:
        if final.by in ("points", "superiority"):
            points = {side: tally.points or 0 for side, tally in final.tallies.items()}
            assert max(points, key=points.__getitem__) == final.winner
        assert any(t.kind == "result" and t.status == "given" and t.side == final.winner for t in gold.truths)


@EVERY
def test_the_clock_never_rises_and_never_outruns_the_recording(gold):
    periods = 2 if gold.sheets[0].ruleset.startswith("uww") else 1
    length = (gold.sheets[0].duration_s or 240) / periods
    starts = [t for t in gold.truths if t.kind == "stoppage" and t.concept == "start"]
    for index, start in enumerate(starts):
        until = starts[index + 1].start_s if index + 1 < len(starts) else float("inf")
        golden = start.of == "golden-score"
        at, clock = start.start_s, 0.0 if golden else length
        for truth in gold.truths:
            if truth.kind != "clock" or truth.misspoken or truth.approx:
                continue
            if start.end_s < truth.start_s < until and (truth.of == "golden-score") == golden:
                up = golden or truth.clock != "elapsed"
                now = float(truth.seconds) if up else length - truth.seconds
                gone = now - clock if golden else clock - now
                assert 0 <= gone <= truth.end_s - at + 1, f"line {truth.line}: {truth.said}"
                at, clock = truth.start_s, now


@EVERY
def test_the_recording_says_what_its_truth_says(gold):
    # the garbled recogniser file says something else by design; its times must be the truth's all the same
    transcript = read(talk_file(gold))
    heard = [word for cue in transcript.cues for word in plain(cue.text)]
    if talk_file(gold).suffix == ".json":
        assert abs(transcript.duration_ms / 1000 - gold.lines[-1].end_s) < 1
    else:
        assert heard == [word for line in gold.lines for word in plain(line.text)]


def plain(text: str) -> list[str]:
    return re.sub(r"[^\w\s]", "", text.lower().replace("-", " ")).split()


@EVERY
def test_every_labelled_concept_is_in_the_lexicon(gold):
    named = ("technique", "grip", "hold", "principle")
    labels = {truth.concept for truth in gold.truths if truth.kind in named}
    assert labels - set(load_terms().concepts) == set()
