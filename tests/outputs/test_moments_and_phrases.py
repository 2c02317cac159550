"""How a bout is told: actions with their landings and points in one line, doubts in words."""

import pytest
from handmade import SIDES, handmade

from hikite.outputs import record_of
from hikite.outputs.labels import capitalised
from hikite.outputs.moments import moments_of
from hikite.outputs.phrases import clock_words, doubt, percent, score_words, stamp, tally_words, winner_words
from hikite.records import Clock, OtherScore, Tally

TIMES = [(0, "0:00"), (59_999, "0:59"), (61_000, "1:01"), (3_600_000, "1:00:00"), (-5, "0:00")]


@pytest.mark.parametrize(("ms", "shown"), TIMES)
def test_stamps(ms, shown):
    assert stamp(ms) == shown


TALLIES = [
    (Tally(points=0), "0"),
    (Tally(ippon=0, waza_ari=1, yuko=0, shido=2), "W1 S2"),
    (Tally(ippon=0, waza_ari=0), "–"),
    (None, "–"),
]


@pytest.mark.parametrize(("tally", "shown"), TALLIES)
def test_tallies(tally, shown):
    assert tally_words(tally) == shown


SCORES = [
    ({"red": Tally(points=4), "blue": Tally(points=2)}, "4–2"),
    ({"red": Tally(waza_ari=1), "blue": Tally(shido=1)}, "W1 : S1"),
]


@pytest.mark.parametrize(("score", "shown"), SCORES)
def test_scores(score, shown):
    assert score_words(score, SIDES) == shown


# The clock is told as well as it is known, and not at all where it is anybody's guess.
CLOCKS = [
    (Clock(low_s=100, high_s=104, best_s=102), "1:42"),
    (Clock(low_s=80, high_s=140, best_s=102), "~1:42"),
    (Clock(low_s=0, high_s=240, best_s=102), ""),
    (Clock(low_s=40, high_s=42, best_s=41, golden=True), "+0:41"),
    (None, ""),
]


@pytest.mark.parametrize(("clock", "shown"), CLOCKS)
def test_clocks(clock, shown):
    assert clock_words(clock) == shown


@pytest.mark.parametrize(("sure", "shown"), [(0.999, "over 99 %"), (0.5, "50 %"), (0.001, "under 1 %")])
def test_percent(sure, shown):
    assert percent(sure) == shown


@pytest.mark.parametrize(("sure", "word"), [(0.9, ""), (0.5, "perhaps "), (0.2, "doubtful: ")])
def test_doubts_are_words(sure, word):
    assert doubt(sure) == word


def test_the_points_go_to_the_throw(lexicon):
    bout = record_of(handmade(), lexicon).bouts[0]
    throw, tried = moments_of(bout)
    assert (throw.what, throw.how, throw.score) == (
        "uchi-mata (inner thigh throw)",
        "completed; 2 points",
        "2–0",
    )
    assert (tried.what, tried.how, tried.score) == (
        "doubtful: ko-soto-gari (minor outer reap)",
        "attempted",
        "",
    )
    assert winner_words(bout) == "Orvik Tandel (red) wins on points (97 %). Score 2–0 (90 %)."


# An unsure score is told with the others that are possible.
def test_an_unsure_score_is_told_with_others(lexicon):
    other = OtherScore(final={"red": Tally(points=2), "blue": Tally(points=1)}, probability=0.25)
    bout = (
        record_of(handmade(), lexicon)
        .bouts[0]
        .model_copy(update={"final_confidence": 0.6, "other_finals": (other,)})
    )
    assert winner_words(bout).endswith("Score 2–0 (60 %), else 2–1 (25 %).")


# Every line of the score stands in exactly one moment, in order, and no entry in two.
def test_no_line_of_the_score_is_lost(record):
    for bout in record.bouts:
        for everything in (False, True):
            moments = moments_of(bout, everything)
            told = [id_ for moment in moments for id_ in moment.entries]
            assert len(told) == len(set(told))
            assert {entry.id for entry in bout.entries if entry.counts} <= set(told)
            starts = [moment.start_ms for moment in moments]
            assert starts == sorted(starts)
        assert set(told) == {entry.id for entry in bout.entries}


def test_marks_for_the_ledger_are_not_told(lexicon):
    recording = handmade()
    bout = record_of(recording, lexicon).bouts[0]
    first = bout.entries[0].model_copy(update={"attributes": ("count:2", "left")})
    told = moments_of(bout.model_copy(update={"entries": (first, *bout.entries[1:])}), everything=True)
    assert not any("count:" in moment.what for moment in told)
    assert any("left" in moment.what for moment in told)


# What is denied may be of no class ("no score"); a landing alone is told once.
@pytest.mark.parametrize(
    ("changed", "what", "how"),
    [
        ({"kind": "score", "concept": "none", "status": "denied", "points": None}, "score", "denied"),
        ({"kind": "landing", "label": "landing on the back", "status": "stated"}, "landing on the back", ""),
    ],
)
def test_what_stands_alone_is_told_once(lexicon, changed, what, how):
    bout = record_of(handmade(), lexicon).bouts[0]
    alone = bout.entries[0].model_copy(update={"counts": False, "status_confidence": 1.0, **changed})
    (told,) = moments_of(bout.model_copy(update={"entries": (alone,)}), everything=True)
    assert (told.what, told.how) == (what, how)


# An end that is only supposed ("if he stays, finish") is no moment of the bout.
@pytest.mark.parametrize(("status", "told"), [("stated", 1), ("supposed", 0)])
def test_a_supposed_end_is_not_told(lexicon, status, told):
    bout = record_of(handmade(), lexicon).bouts[0]
    end = bout.entries[0].model_copy(
        update={"kind": "stoppage", "concept": "end", "counts": False, "status": status}
    )
    assert len(moments_of(bout.model_copy(update={"entries": (end,)}))) == told


# Of ends and results called, only those that held are moments: what was called too early was none.
def test_what_is_called_too_early_is_not_told(lexicon):
    bout = record_of(handmade(), lexicon).bouts[0]
    throw = bout.entries[0]
    won = {"kind": "result", "concept": bout.result.by, "side": bout.result.winner}
    called = [
        {"id": "b1.over", "kind": "stoppage", "concept": "end"},
        {"id": "b1.won", **won},
        {"id": "b1.time", "kind": "stoppage", "concept": "end"},
        {"id": "b1.wins", **won},
        {"id": "b1.again", **won},
    ]
    plain = {"counts": False, "status": "stated", "of": None}
    later = [
        throw.model_copy(update={**plain, **one, "start_ms": throw.start_ms + 60_000 + 1_000 * number})
        for number, one in enumerate(called)
    ]
    told = moments_of(bout.model_copy(update={"entries": tuple(later)}))
    assert [id_ for moment in told for id_ in moment.entries] == ["b1.time", "b1.wins"]


# Somebody who had won long before he scored had not.
@pytest.mark.parametrize(("apart_ms", "told"), [(60_000, ["b1.throw"]), (10_000, ["b1.won", "b1.throw"])])
def test_nobody_wins_long_before_the_last_score(lexicon, apart_ms, told):
    bout = record_of(handmade(), lexicon).bouts[0]
    won = {"id": "b1.won", "kind": "result", "concept": bout.result.by, "side": bout.result.winner}
    entries = (
        bout.entries[0].model_copy(update={**won, "counts": False, "status": "given", "of": None}),
        bout.entries[0].model_copy(
            update={"id": "b1.throw", "counts": True, "start_ms": bout.entries[0].start_ms + apart_ms}
        ),
    )
    moments = moments_of(bout.model_copy(update={"entries": entries}))
    assert [id_ for moment in moments for id_ in moment.entries] == told


# A hold is told once, by its own name where that is said, with how long it lasted and how it ended.
def test_a_hold_is_told_once(lexicon):
    bout = record_of(handmade(), lexicon).bouts[0]
    hold = {"kind": "hold", "counts": False, "status_confidence": 1.0, "confidence": 1.0, "attributes": ()}
    told = [
        bout.entries[0].model_copy(update={**hold, "id": f"b1.{number}", **changed})
        for number, changed in enumerate(
            [
                {"concept": "osaekomi", "label": "osaekomi", "status": "running", "seconds": None},
                {"concept": "kesa-gatame", "label": "scarf hold", "status": "running", "seconds": 6},
                {"concept": "osaekomi", "label": "osaekomi", "status": "broken", "seconds": None},
            ]
        )
    ]
    (moment,) = moments_of(bout.model_copy(update={"entries": tuple(told)}))
    assert (moment.what, moment.how) == ("scarf hold", "broken; 6 s")
    assert moment.entries == ("b1.0", "b1.1", "b1.2")


@pytest.mark.parametrize(
    ("learnt", "shown"), [("tallow isle", "Tallow Isle"), ("McOrvik", "McOrvik"), ("", None), (None, None)]
)
def test_names_from_lower_case_speech_get_capitals(learnt, shown):
    assert capitalised(learnt) == shown


# Points that no action of anybody's brought are told by what brought them.
@pytest.mark.parametrize(("concept", "what"), [("points", "points"), ("step-out", "step out")])
def test_points_without_an_action(lexicon, concept, what):
    bout = record_of(handmade(), lexicon).bouts[0]
    line = next(entry for entry in bout.entries if entry.kind == "score" and entry.counts)
    alone = line.model_copy(update={"concept": concept, "label": concept.replace("-", " "), "quotes": ()})
    (moment,) = moments_of(bout.model_copy(update={"entries": (alone,)}))
    assert (moment.what, moment.how) == (what, "2 points")


# Another name of the throw that scored, said in the same breath, makes no second line of the sheet.
@pytest.mark.parametrize(("repeats", "lines"), [("b1.first", 2), (None, 3)])
def test_a_throw_named_twice_is_one_line(lexicon, repeats, lines):
    bout = record_of(handmade(), lexicon).bouts[0]
    throw = bout.entries[0]
    said = throw.start_ms - 1_500
    named = {"id": "b1.first", "start_ms": said, "end_ms": said + 500, "counts": False, "quotes": ()}
    entries = (throw.model_copy(update=named), throw.model_copy(update={"repeats": repeats}))
    told = moments_of(bout.model_copy(update={"entries": (*entries, *bout.entries[1:])}))
    assert len(told) == lines
    if lines == 2:
        assert told[0].how == "completed; 2 points; said 2 times"
        assert (told[0].start_ms, told[0].score) == (said, "2–0")
