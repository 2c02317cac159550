# ruff: noqa: E501 (a case is a line)
"""What judo's rules prove of a score that nobody told whole.

Rows: IJF rules of 2018 and 2025 as British Judo gives them (JF-01: two waza-ari make ippon; JF-04: golden
score ends by a score or hansoku-make alone, JX-05: it has no limit and no vote; JE-03: the third shido puts
out).
"""

import pytest
from telling import Told, award, board, call, clock, fault, result, tell, throw

from hikite.ledger import keep, load_rulesets
from hikite.records import Bout, Tally

RULESETS = load_rulesets()
J18, J25 = "judo.2018", "judo.2025"
GOLDEN = clock(0, of="golden-score", elapsed=True)
Shown = tuple[dict[str, int], dict[str, int]]


def unsure(kind: str, white: float, **told: object) -> list[Told]:
    """A claim whose side is in doubt: ``white`` is P(white)."""
    return [
        {"kind": kind, "concept": "shido", "status": "given", "sides": {"white": white, "blue": 1 - white}}
        | told
    ]


def score(name: str, white: float) -> list[Told]:
    return unsure("score", white, concept=name, score_class=name)


def stands(margin: int | None = None, side: str | None = None, of: str | None = None) -> list[Told]:
    """The score said to be level, or a side to lead."""
    return [
        {
            "kind": "stated_score",
            "concept": "score",
            "status": "stated",
            "margin": margin,
            "side": side,
            "of": of,
        }
    ]


def bout_of(ruleset: str, *acts: list[Told]) -> Bout:
    (bout,) = keep(tell(call("start"), *acts, ruleset=ruleset), RULESETS).bouts
    return bout


def shown(bout: Bout) -> Shown:
    one, two = (
        {name: count for name, count in bout.final[side].model_dump().items() if count} for side in bout.sides
    )
    return one, two


SECOND = throw("white", "tai-otoshi") + award("white", "waza-ari")
SUM: Told = {"kind": "result", "concept": "ippon", "status": "given", "side": "white", "of": "sum"}


# JF-01: an ippon called for the second waza-ari is their sum, and the board shows two; one of its own is not.
@pytest.mark.parametrize(
    ("acts", "expected"),
    [
        ([SECOND, SECOND, award("white", "ippon")], ({"waza_ari": 2}, {})),
        ([SECOND, [*throw("white", "tai-otoshi"), SUM]], ({"waza_ari": 2}, {})),
        ([SECOND, throw("white", "uchi-mata") + award("white", "ippon")], ({"waza_ari": 1, "ippon": 1}, {})),
        # Whose the second was is told by who had one.
        (
            [award("white", "waza-ari"), award("blue", "waza-ari"), score("waza-ari", 0.4) + award("white", "ippon")],
            ({"waza_ari": 2}, {"waza_ari": 1}),
        ),
    ],
)  # fmt: skip
def test_two_waza_ari_make_ippon(acts: list[list[Told]], expected: Shown) -> None:
    assert shown(bout_of(J18, *acts)) == expected


# JE-03: who is behind and wins all the same won by the other's third shido.
def test_a_winner_who_was_behind() -> None:
    faults = [unsure("penalty", 0.3), unsure("penalty", 0.5)]
    bout = bout_of(J18, *faults, award("white", "waza-ari"), unsure("penalty", 0.5), result("blue", "points"))
    assert shown(bout) == ({"waza_ari": 1, "shido": 3}, {})
    assert (bout.result.winner, bout.result.by) == ("blue", "hansoku-make")


# JF-04, JX-05: no level bout has a winner, so what was done scored though no award was called.
def test_a_winner_proves_a_score() -> None:
    bout = bout_of(J18, throw("blue", "tai-otoshi"), call("end"), result("blue", "points"))
    assert shown(bout) == ({}, {"waza_ari": 1})


# JF-04: golden score begins level, so the doubtful waza-ari before it was the other side's.
def test_golden_score_begins_level() -> None:
    before = [score("waza-ari", 0.9), score("waza-ari", 0.55), call("end"), GOLDEN]
    bout = bout_of(J18, *before, award("blue", "waza-ari"), result("blue", "points"))
    assert shown(bout) == ({"waza_ari": 1}, {"waza_ari": 2})


# JE-03: a bout that goes on was not ended by a third shido.
def test_what_goes_on_is_not_over() -> None:
    doubtful = unsure("penalty", 0.1, statuses={"given": 0.6, "recalled": 0.4})
    on = [clock(100), call("restart"), clock(60), clock(20), call("end")]
    assert shown(bout_of(J18, fault("blue", "shido"), fault("blue", "shido"), doubtful, *on)) == (
        {},
        {"shido": 2},
    )


# "Level", "he leads", "level on shidos" settle whose the doubtful score was.
@pytest.mark.parametrize(
    ("acts", "expected"),
    [
        ([award("white", "waza-ari"), score("waza-ari", 0.6), stands(0)], ({"waza_ari": 1}, {"waza_ari": 1})),
        ([score("waza-ari", 0.6), stands(side="blue")], ({}, {"waza_ari": 1})),
        ([score("waza-ari", 0.4), stands(side="white")], ({"waza_ari": 1}, {})),
        ([fault("white", "shido"), unsure("penalty", 0.6), stands(0, of="shido")], ({"shido": 1}, {"shido": 1})),
    ],
)  # fmt: skip
def test_a_lead_without_a_number(acts: list[list[Told]], expected: Shown) -> None:
    assert shown(bout_of(J18, *acts)) == expected


# Common practice, no source: shidos are often told by their count alone.
@pytest.mark.parametrize(
    ("told", "expected"),
    [
        (board(white={"shido": 1}, blue={"shido": 1}), ({"shido": 1}, {"shido": 1})),
        (board(blue={"shido": 1}), ({}, {"shido": 1})),
    ],
)
def test_shidos_that_only_a_count_tells_of(told: list[Told], expected: Shown) -> None:
    assert shown(bout_of(J18, told, clock(60))) == expected


# JE-03: "one more and she's gone" is said of whoever has two.
def test_one_more_and_she_is_gone() -> None:
    gone: Told = {"concept": "hansoku-make", "status": "supposed", "of": "brink"}
    acts = [unsure("penalty", 0.6), unsure("penalty", 0.55), unsure("penalty", 0.05, **gone)]
    assert shown(bout_of(J18, *acts)) == ({}, {"shido": 2})


# Numbers alone count what was given last; of penalties nobody leads, whichever is told first.
@pytest.mark.parametrize("name", ["yuko", "waza_ari"])
def test_numbers_count_what_was_given_last(name: str) -> None:
    called = name.replace("_", "-")
    told: Told = {
        "kind": "stated_score",
        "concept": "score",
        "status": "stated",
        "attributes": ("class unsaid",),
    }
    told |= {"tallies": {"white": Tally(waza_ari=1), "blue": Tally(waza_ari=1)}}
    bout = bout_of(J25, award("white", called), [*score(called, 0.55), told])
    assert shown(bout) == ({name: 1}, {name: 1})


# JF-01: nobody has two waza-ari each, so "two all" counts something else.
def test_two_all_is_no_score() -> None:
    told: Told = {"kind": "stated_score", "concept": "score", "status": "stated"}
    told |= {"attributes": ("class unsaid",), "tallies": dict.fromkeys(("white", "blue"), Tally(waza_ari=2))}
    faults = [fault(side, "shido") for side in ("white", "blue", "blue")]
    assert shown(bout_of(J18, *faults, unsure("penalty", 0.45), [told])) == ({"shido": 2}, {"shido": 2})


# Common practice, no source: what is given right after an award was taken back is given to the same side.
def test_given_in_its_place() -> None:
    back: Told = {"concept": "yuko", "score_class": "yuko", "status": "denied", "of": "taken-back"}
    instead = [*unsure("score", 0.55, **back), *score("waza-ari", 0.6)]
    assert shown(bout_of(J25, award("blue", "yuko"), instead)) == ({}, {"waza_ari": 1})


# "He has two cards, he's a throw down": who is down is told by the score, and so whose the second card was.
def test_two_things_of_one_person() -> None:
    of = {
        "kind": "stated_score",
        "concept": "score",
        "status": "stated",
        "sides": {"white": 0.4, "blue": 0.6},
    }
    two: Told = {**of, "tallies": {"white": Tally(shido=2)}, "ordered": False}
    down: Told = {**of, "attributes": ("behind", "same one")}
    faults = [fault("white", "shido"), fault("blue", "shido"), unsure("penalty", 0.4)]
    bout = bout_of(J18, *faults, award("blue", "waza-ari"), [two, down])
    assert shown(bout) == ({"shido": 2}, {"shido": 1, "waza_ari": 1})


# A penalty taken back is had no more. Common practice, no source.
def test_a_shido_taken_back() -> None:
    back = unsure("penalty", 0.4, status="denied", of="taken-back")
    faults = [fault("white", "shido"), fault("blue", "shido")]
    assert shown(bout_of(J18, faults[0], [*faults[1], *back], clock(60))) == ({"shido": 1}, {})


def test_three_cards_against_two() -> None:
    told: Told = {"kind": "stated_score", "concept": "score", "status": "stated", "ordered": False}
    told |= {"tallies": {"white": Tally(shido=3), "blue": Tally(shido=2)}}
    faults = [fault(side, "shido") for side in ("white", "blue", "white", "blue")]
    bout = bout_of(J18, *faults, unsure("penalty", 0.4), [told])
    assert shown(bout) == ({"shido": 2}, {"shido": 3})


# J08, BJA18: a direct hansoku-make ends the bout whatever the count of shidos is.
def test_a_red_card_ends_it() -> None:
    out = unsure("penalty", 0.2, concept="hansoku-make")
    bout = bout_of(J18, fault("blue", "shido"), out, result("white", "points"))
    assert shown(bout) == ({}, {"shido": 1})
    assert (bout.result.winner, bout.result.by) == ("white", "hansoku-make")


# "She goes through": how, the score tells; who won at time won by the score alone.
@pytest.mark.parametrize(
    ("acts", "concept"),
    [
        ([award("white", "ippon")], "ippon"),
        ([fault("blue", "shido")] * 3, "disqualification"),
        ([award("white", "waza-ari"), call("end")], "points"),
    ],
)
def test_how_a_win_told_without_it_was_won(acts: list[list[Told]], concept: str) -> None:
    events = bout_of(J18, *acts, result("white", "points")).events
    assert [event.concept for event in events if event.kind == "result"][-1] == concept


# IJF 2018 (JF-01, twenty seconds): a count that goes on as a clock would shows that nothing broke the hold.
def test_a_hold_that_was_not_broken() -> None:
    def count(seconds: int, status: str, at_ms: int) -> Told:
        told: Told = {"kind": "hold", "concept": "kesa-gatame", "status": status, "side": "blue"}
        return told | {"seconds": seconds, "start_ms": at_ms, "end_ms": at_ms + 500}

    counts = [[count(11, "broken", 60_000)], [count(20, "completed", 69_000)]]
    assert shown(bout_of(J18, *counts, result("blue", "ippon"))) == ({}, {"ippon": 1})


# JG-02, JG-03, JG-03b: a hold gives one score, the highest it reached: yuko at five seconds, ippon at twenty.
@pytest.mark.parametrize(
    ("counts", "names", "expected"),
    [
        ((5, 20), ("yuko", "ippon"), {"ippon": 1}),
        ((5, 10), ("yuko", "waza-ari"), {"waza_ari": 1}),
        # For the throw before it, not for the hold: both count.
        ((0, 20), ("waza-ari", "ippon"), {"waza_ari": 1, "ippon": 1}),
    ],
)
def test_a_hold_gives_one_score(
    counts: tuple[int, int], names: tuple[str, str], expected: dict[str, int]
) -> None:
    hold: Told = {"kind": "hold", "concept": "kesa-gatame", "status": "running", "side": "blue"}
    told = [hold | {"start_ms": 60_000, "end_ms": 60_500}]
    for seconds, name in zip(counts, names, strict=True):
        at = 60_000 + 1000 * seconds
        if seconds:
            told.append(hold | {"seconds": seconds, "start_ms": at, "end_ms": at + 400})
        (called,) = award("blue", name)
        told.append(called | {"start_ms": at + 500, "end_ms": at + 900})
    assert shown(bout_of(J25, told)) == ({}, expected)


# JF-04: what ended golden score may be lowered once the video is seen, and it is over all the same.
def test_an_ippon_lowered_in_golden_score() -> None:
    (lowered,) = award("blue", "waza-ari")
    called = [*award("blue", "ippon"), lowered | {"attributes": ("instead",)}]
    bout = bout_of(J18, call("end"), GOLDEN, called, result("blue", "points"))
    assert shown(bout) == ({}, {"waza_ari": 1})
    assert (bout.result.winner, bout.result.by) == ("blue", "golden-score")


# Common practice, no source: the video is looked at for half a minute before what was given is lowered.
def test_lowered_after_the_video() -> None:
    lowered = unsure("score", 0.45, concept="yuko", score_class="yuko", attributes=("instead",))
    bout = bout_of(J25, award("white", "waza-ari"), lowered, clock(60))
    assert shown(bout) == ({"yuko": 1}, {})


# Common practice, no source: what is taken back and what is given for it are told in two statements, and both
# words for it are one lowering; whose it was is told by the throw.
def test_taken_back_and_given_less() -> None:
    back = unsure("score", 0.6, concept="waza-ari", score_class="waza-ari", status="denied", of="taken-back")
    less = unsure("score", 0.6, concept="yuko", score_class="yuko", attributes=("instead",))
    bout = bout_of(J25, throw("blue", "tai-otoshi") + award("blue", "waza-ari"), [*back, *less], clock(60))
    assert shown(bout) == ({}, {"yuko": 1})


# A shido is given while play is stopped; what is said of passivity until it goes on is the same
# one, unless it is said to be one more. Common practice, no source.
@pytest.mark.parametrize(
    ("before", "attributes", "shidos"),
    [([], (), 1), (call("restart"), (), 2), ([], ("further",), 2)],
)
def test_talked_of_while_play_is_stopped(
    before: list[Told], attributes: tuple[str, ...], shidos: int
) -> None:
    given: Told = {
        "kind": "penalty",
        "concept": "shido",
        "status": "given",
        "side": "white",
        "start_ms": 60_000,
        "end_ms": 61_000,
    }
    again = given | {"start_ms": 72_000, "end_ms": 73_000, "attributes": attributes}
    between = [one | {"start_ms": 65_000, "end_ms": 66_000} for one in before]
    assert shown(bout_of(J18, [given, *between, again], clock(60))) == ({"shido": shidos}, {})
