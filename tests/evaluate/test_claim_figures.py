"""Mention figures on cases small enough to count by hand."""

from pathlib import Path

import pytest
from bouts_by_hand import TALK, claim, claimed, equal, gold, label

from hikite.errors import GoldError
from hikite.evaluate import evaluate_claims
from hikite.evaluate.golds import read_gold

HIP = label(0, "hip throw", "technique", "o-goshi", side="red", status="attempted", accept=["uki-goshi"])
HIP_AGAIN = label(0, "hip throw", "technique", "o-goshi", side="red", status="completed", nth=2)
LAPEL = label(2, "lapel", "grip", "grip:lapel", side="blue", status="taken")


def figures(tmp_path, labels, *claims, same=equal):
    return evaluate_claims(claimed(*claims), TALK, gold(tmp_path, labels), same)


def test_precision_recall_and_f1_are_the_hand_counted_ones(tmp_path):
    # three truths (two hip throws, one lapel); four predictions: one hip throw right, the lapel right,
    # an uchi-mata and a late sleeve wrong: precision 2/4, recall 2/3, F1 2*(1/2*2/3)/(1/2+2/3) = 4/7
    found = figures(
        tmp_path,
        [HIP, HIP_AGAIN, LAPEL],
        claim(1, "technique", "o-goshi", side="red", status="attempted"),
        claim(3, "technique", "uchi-mata", side="red", status="attempted"),
        claim(21, "grip", "grip:lapel", side="blue", status="taken"),
        claim(31, "grip", "grip:sleeve", side="blue", status="taken"),
    ).headline
    assert (found.precision, found.recall) == (2 / 4, 2 / 3)
    assert found.f1 == pytest.approx(4 / 7)


def test_side_and_status_are_asked_of_matched_mentions_only(tmp_path):
    # matched: hip throw (side right, status wrong) and lapel (side wrong, status right) -> 1 of 2 each;
    # the second hip throw is missed and asks nothing
    found = figures(
        tmp_path,
        [HIP, HIP_AGAIN, LAPEL],
        claim(1, "technique", "o-goshi", side="red", status="failed"),
        claim(21, "grip", "grip:lapel", side="red", status="taken"),
    )
    assert found.headline.side == (1, 2)
    assert found.headline.status == (1, 2)
    assert found.kinds["technique"].status == (0, 1)
    assert [one.verdict for one in found.outcomes] == ["wrong status", "missed", "wrong side"]


@pytest.mark.parametrize(
    ("at_s", "concept", "right"),
    [
        (1.0, "o-goshi", True),
        (1.0, "uki-goshi", True),  # in the label's accept
        (1.0, "hip-toss", True),  # declared the same as o-goshi
        (1.0, "harai-goshi", False),
        (6.9, "o-goshi", True),  # the line ends at 5 s: within two seconds
        (7.1, "o-goshi", False),
    ],
)
def test_a_mention_is_right_by_concept_and_time(tmp_path, at_s, concept, right):
    def same(one, other):
        return one == other or {one, other} == {"hip-toss", "o-goshi"}

    found = figures(tmp_path, [HIP], claim(at_s, "technique", concept), same=same)
    assert found.headline.truths_right == int(right)


def test_one_prediction_answers_one_truth(tmp_path):
    # two truths in one line, three equal predictions: both found, one prediction spurious
    found = figures(
        tmp_path, [HIP, HIP_AGAIN], *(claim(at_s, "technique", "o-goshi") for at_s in (1.0, 3.0, 4.0))
    ).headline
    assert (found.truths_right, found.heard_right, found.heard) == (2, 2, 3)


def test_as_many_truths_as_can_be_are_answered(tmp_path):
    # the uki-goshi could answer HIP alone and the o-goshi either; taking the nearest pair first
    # (o-goshi at 1.9 s for HIP) must not leave the second truth without its answer
    found = figures(
        tmp_path, [HIP, HIP_AGAIN], claim(0, "technique", "uki-goshi"), claim(1.9, "technique", "o-goshi")
    ).headline
    assert found.truths_right == 2


def test_a_family_word_beside_the_truth_is_vague_not_spurious(tmp_path):
    found = figures(
        tmp_path, [HIP], claim(1, "technique", "o-goshi"), claim(2, "technique", "throw", generic=True)
    ).headline
    assert (found.precision, found.vague) == (1.0, 1)
    assert found.strict.precision == 1 / 2


FOUR_NIL = {"red": {"points": 4}, "blue": {"points": 0}}
VALUES = [
    # points
    (label(1, "Four to red", "score", None, points=4), claim(11, "score", "points", points=4), True),
    (label(1, "Four to red", "score", None, points=4), claim(11, "score", "points", points=2), False),
    # clocks: seconds, and which way they run
    (label(2, "a minute", "clock", None, seconds=60), claim(22, "clock", "clock", seconds=60), True),
    (label(2, "a minute", "clock", None, seconds=60), claim(22, "clock", "clock", seconds=1), False),
    (
        label(2, "a minute", "clock", None, seconds=60, clock="elapsed"),
        claim(22, "clock", "clock", seconds=60),
        False,
    ),
    # stated scores: by side; unordered ones by their numbers; a lead by its margin
    (
        label(1, "Four nil", "stated_score", None, red=4, blue=0),
        claim(14, "stated_score", "score", tallies=FOUR_NIL),
        True,
    ),
    (
        label(1, "Four nil", "stated_score", None, red=4, blue=0),
        claim(14, "stated_score", "score", tallies={"red": {"points": 0}, "blue": {"points": 4}}),
        False,
    ),
    (
        label(1, "Four nil", "stated_score", None, red=0, blue=4),
        claim(14, "stated_score", "score", ordered=False, tallies=FOUR_NIL),
        True,
    ),
    (
        label(1, "Four nil", "stated_score", None, red=4, blue=0, margin=4),
        claim(14, "stated_score", "score", margin=4),
        True,
    ),
    # judo: what the label does not tell is not asked
    (
        label(1, "Four nil", "stated_score", None, red={"waza-ari": 1, "shido": None}, blue={}),
        claim(14, "stated_score", "score", tallies={"red": {"waza_ari": 1, "shido": 2}, "blue": {}}),
        True,
    ),
]


@pytest.mark.parametrize(("truth", "told", "right"), VALUES)
def test_values(tmp_path, truth, told, right):
    found = figures(tmp_path, [truth], told).kinds[truth["kind"]]
    assert found.truths_right == 1
    assert found.value == (int(right), 1)


def test_a_judo_score_is_named_not_numbered(tmp_path):
    truth = label(1, "Four to red", "score", "yuko", score="yuko", side="red")
    right = figures(tmp_path, [truth], claim(11, "score", "yuko", score_class="yuko", side="red"))
    wrong = figures(tmp_path, [truth], claim(11, "score", "waza-ari", score_class="waza-ari", side="red"))
    assert (right.kinds["score"].truths_right, wrong.kinds["score"].truths_right) == (1, 0)


def test_landings_are_counted_apart_from_positions(tmp_path):
    truth = label(0, "lands", "position", "landing:back", side="blue")
    found = figures(tmp_path, [truth], claim(4, "landing", "back", side="blue"))
    assert found.kinds["landing"].truths_right == 1
    assert found.kinds["position"].truths == 0


@pytest.mark.parametrize(("labelled", "spurious"), [("turtle", 0), ("landing:side", 1)])
def test_landings_are_no_mistakes_where_none_is_labelled(tmp_path, labelled: str, spurious: int):
    truth = label(0, "lands", "position", labelled, side="blue")
    found = figures(tmp_path, [truth], claim(4, "landing", "back", side="blue"))
    assert found.kinds["landing"].heard == spurious
    assert [one.verdict for one in found.outcomes].count("spurious") == spurious
    assert [guess.about for guess in found.guesses].count("landing") == spurious


def test_the_status_of_a_slip_of_the_tongue_is_not_asked(tmp_path):
    truth = label(1, "Four to red", "score", None, points=4, side="red", status="stated", misspoken=True)
    found = figures(tmp_path, [truth], claim(11, "score", "points", points=4, side="red", status="denied"))
    assert found.kinds["score"].status == (0, 0)


@pytest.mark.parametrize(("labelled", "meant"), [("started", "running"), ("held", "completed")])
def test_two_hold_statuses_are_other_words_for_two(tmp_path, labelled, meant):
    truth = label(2, "has", "hold", "kesa-gatame", status=labelled)
    found = figures(tmp_path, [truth], claim(20, "hold", "kesa-gatame", status=meant))
    assert found.kinds["hold"].status == (1, 1)


@pytest.mark.parametrize(
    ("label_or_text", "problem"),
    [
        ("not json", "1: not a gold file: Expecting value"),
        ("{}", " not a gold file: no 'lines' where one is needed"),
        ("[]", " not a gold file"),
        ('{"lines": [{"text": "Go.", "start_s": 1}]}', " not a gold file: lines 0: end_s: Field required"),
    ],
)
def test_a_broken_gold_file_is_one_clear_error(tmp_path, label_or_text, problem):
    path = tmp_path / "broken.gold.json"
    path.write_text(label_or_text, "utf-8")
    with pytest.raises(GoldError, match=f"broken.gold.json:{problem}"):
        read_gold(path)


def test_a_label_must_quote_its_line(tmp_path: Path):
    with pytest.raises(GoldError, match="does not contain"):
        gold(tmp_path, [label(0, "never said", "technique", "o-goshi")])
