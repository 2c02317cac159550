"""What loose talk proves together with the rules: order of numbers, counts, scores taken back, put out."""

import numpy as np
import pytest
from telling import Told, award, call, clock, fault, hold, result, stated, tell, throw

from hikite.ledger import keep, load_rulesets
from hikite.ledger.grids import Move, grid
from hikite.ledger.lattices import solve
from hikite.ledger.passes import Choice, Step
from hikite.ledger.plans import plan
from hikite.records import Bout, Competitor, Sheet, Tally

RULESETS = load_rulesets()


def pair(first: int, second: int) -> list[Told]:
    """Two numbers in speaking order, whose is whose untold."""
    tallies = {"red": Tally(points=first), "blue": Tally(points=second)}
    return [
        {
            "kind": "stated_score",
            "concept": "score",
            "status": "stated",
            "tallies": tallies,
            "ordered": False,
        }
    ]


def numbers(first: int, second: int) -> list[Told]:
    """Two numbers of judo scores nobody names ("one each")."""
    tallies = {"white": Tally(waza_ari=first), "blue": Tally(waza_ari=second)}
    told: Told = {"kind": "stated_score", "concept": "score", "status": "stated", "tallies": tallies}
    return [told | {"ordered": first == second, "attributes": ("class unsaid",)}]


def bout_of(ruleset: str, *acts: list[Told]) -> Bout:
    (bout,) = keep(tell(call("start"), *acts, ruleset=ruleset), RULESETS).bouts
    return bout


def points(bout: Bout) -> tuple[int | None, ...]:
    return tuple(bout.final[side].points for side in bout.sides)


# Common practice, no source: a speaker keeps to one order. "Nought-two, one-two, one-four" is red first, so
# the last two points, called for nobody, are blue's.
def test_a_speakers_order_is_learnt_from_his_own_numbers() -> None:
    bout = bout_of(
        "uww.fs",
        throw("blue", "double-leg") + award("blue", 2),
        pair(0, 2),
        throw("red", "reversal") + award("red", 1),
        pair(1, 2),
        award(None, 2),
        pair(1, 4),
    )
    assert points(bout) == (1, 4)


# The same with the other order: "two-nought, two-one" after blue's two is blue first.
@pytest.mark.parametrize(("last", "final"), [((2, 3), (3, 2)), ((4, 1), (1, 4))])
def test_either_order_is_learnt(last: tuple[int, int], final: tuple[int, int]) -> None:
    bout = bout_of(
        "uww.fs",
        throw("red", "reversal") + award("red", 1),
        pair(0, 1),
        throw("blue", "double-leg") + award("blue", 2),
        pair(2, 1),
        award(None, 2),
        pair(*last),
    )
    assert points(bout) == final


# IJF 2018 (BJA18, JE-03): the third shido is hansoku-make; one named after two shidos is the third.
def test_hansoku_make_after_two_shidos_is_the_third() -> None:
    bout = bout_of(
        "judo.2018",
        fault("blue", "shido"),
        fault("blue", "shido"),
        [{"kind": "penalty", "concept": "hansoku-make", "status": "given"}],
    )
    assert bout.final["blue"].shido == 3
    assert (bout.result.winner, bout.result.by) == ("white", "hansoku-make")


def test_a_third_shido_said_too_is_counted_once() -> None:
    hansoku: list[Told] = [{"kind": "penalty", "concept": "hansoku-make", "status": "given", "side": "blue"}]
    bout = bout_of("judo.2018", *[fault("blue", "shido")] * 3, hansoku)
    assert bout.final["blue"].shido == 3
    assert sum(event.counts for event in bout.events) == 3


# "Disqualified" proves whose the three shidos were.
def test_who_is_disqualified_had_the_penalties() -> None:
    unknown: Told = {
        "kind": "penalty",
        "concept": "shido",
        "status": "given",
        "sides": {"white": 0.45, "blue": 0.55},
    }
    bout = bout_of("judo.2018", *[[unknown]] * 3, result("white", "disqualification"))
    assert bout.final["blue"].shido == 3


# "No — they've taken it off her."
@pytest.mark.parametrize(("of", "left"), [("taken-back", 0), (None, 1)])
def test_an_award_is_taken_back_without_its_name(of: str | None, left: int) -> None:
    nothing: Told = {"kind": "score", "concept": "none", "status": "denied", "of": of}
    bout = bout_of("judo.2018", throw("blue", "o-soto-gari") + award("blue", "waza-ari"), [nothing])
    assert bout.final["blue"].waza_ari == left


# "Yuko, that's two for him" is the one's who had one before.
@pytest.mark.parametrize(("attributes", "yukos"), [(("count:2",), (2, 0)), ((), (1, 1))])
def test_a_counted_award_is_whose_count_it_fits(attributes: tuple[str, ...], yukos: tuple[int, int]) -> None:
    second: Told = {
        "kind": "score",
        "concept": "yuko",
        "status": "given",
        "score_class": "yuko",
        "attributes": attributes,
        "sides": {"white": 0.4, "blue": 0.6},
    }
    bout = bout_of("judo.2025", throw("white", "tai-otoshi") + award("white", "yuko"), [second])
    assert (bout.final["white"].yuko, bout.final["blue"].yuko) == yukos


# "A shido for blue. Another for her opponent. One each now": shidos, not waza-ari.
def test_numbers_right_after_a_card_count_cards() -> None:
    second: Told = {
        "kind": "penalty",
        "concept": "shido",
        "status": "given",
        "sides": {"white": 0.3, "blue": 0.7},
    }
    bout = bout_of("judo.2018", [*fault("blue", "shido"), second, *numbers(1, 1)])
    assert (bout.final["white"].shido, bout.final["blue"].shido) == (1, 1)
    assert (bout.final["white"].waza_ari, bout.final["blue"].waza_ari) == (0, 0)


# "An o-soto given and taken back", told after the end, takes nothing back.
def test_nothing_is_taken_back_after_the_end() -> None:
    gone: Told = {"kind": "score", "concept": "none", "status": "denied", "of": "taken-back"}
    bout = bout_of(
        "judo.2018", throw("white", "tai-otoshi") + award("white", "waza-ari"), call("end"), [gone], [gone]
    )
    assert bout.final["white"].waza_ari == 1


# "Time! Golden score": the bout goes on, and what is thrown then counts.
def test_golden_score_goes_on() -> None:
    golden = clock(0, of="golden-score", elapsed=True)
    last = throw("white", "tai-otoshi") + award("white", "waza-ari")
    bout = bout_of("judo.2018", call("end"), golden, last)
    assert bout.final["white"].waza_ari == 1


# "Ippon, it's all over … no, not ippon": the bout goes on.
def test_a_denied_end_reopens_the_bout() -> None:
    denied: Told = {"kind": "score", "concept": "ippon", "status": "denied", "score_class": "ippon"}
    after = throw("blue", "uchi-mata") + award("blue", "waza-ari")
    bout = bout_of("judo.2018", call("end"), [denied], after)
    assert bout.final["blue"].waza_ari == 1


# Who was sat down before the throw was named did not throw.
def test_a_landing_told_before_the_throw() -> None:
    landing: Told = {"kind": "landing", "concept": "landing:buttocks", "status": "stated", "side": "blue"}
    throw_: Told = {
        "kind": "technique",
        "concept": "ko-uchi-gari",
        "status": "completed",
        "sides": {"white": 0.45, "blue": 0.55},
    }
    yuko: Told = {"kind": "score", "concept": "yuko", "status": "given", "score_class": "yuko"}
    bout = bout_of("judo.2025", [landing, throw_, yuko | {"sides": {"white": 0.5, "blue": 0.5}}])
    assert bout.final["white"].yuko == 1


def place(side: str) -> list[Told]:
    """Somebody said to be out of the area."""
    return [{"kind": "position", "concept": "out", "status": "stated", "side": side}]


# UWW 2018 (WV-01, ONTFR): stepping out gives the other side one, called or not; sambo gives nothing for it.
@pytest.mark.parametrize(
    ("ruleset", "acts", "final"),
    [
        ("uww.fs", [place("blue")], (3, 2)),
        ("uww.fs", [place("blue") + place("blue")], (3, 2)),
        ("uww.fs", [place("blue") + award("red", 1)], (3, 2)),
        ("uww.fs", [place("blue") + award(None, 0, "denied")], (2, 2)),
        ("sambo.sport.2020", [place("blue")], (2, 2)),
    ],
)  # fmt: skip
def test_a_step_out_pays_whether_called_or_not(
    ruleset: str, acts: list[list[Told]], final: tuple[int, int]
) -> None:
    before = [award("red", 2), award("blue", 2), pair(2, 2)]
    bout = bout_of(ruleset, *before, *acts, result("red", "points"))
    assert points(bout) == final


# UWW (WV-12, from memory): a challenge lost gives the other side one, though nobody says whose it is.
def test_a_lost_challenge_pays_the_other_side() -> None:
    made: list[Told] = [
        {"kind": "stoppage", "concept": "stop", "of": "challenge", "status": "stated", "side": "red"}
    ]
    lost: list[Told] = [
        {"kind": "stoppage", "concept": "lost-challenge", "of": "challenge", "status": "stated"}
    ]
    bout = bout_of("uww.fs", award("red", 2), award("blue", 4), made, lost, result("blue", "points"))
    assert points(bout) == (2, 5)
    over = award(None, 1)[0] | {"statuses": {"given": 0.2, "recalled": 0.7}, "status": "recalled"}
    bout = bout_of("uww.fs", award("red", 2), award("blue", 4), made, [*lost, over], result("blue", "points"))
    assert points(bout) == (2, 5)


# "Waza-ari! … No, sorry, it's a yuko": one score, whatever was done or said in between; so too upwards.
@pytest.mark.parametrize("values", [("waza-ari", "yuko"), ("yuko", "waza-ari")])
def test_words_of_correction_put_one_award_in_the_others_place(values: tuple[str, str]) -> None:
    first = award("white", values[0])[0] | {"statuses": {"given": 0.8, "denied": 0.2}}
    second = award("white", values[1])[0] | {"attributes": ("instead",)}
    bout = bout_of("judo.2025", [*throw("white", "tai-otoshi"), first, *throw("white", "tai-otoshi"), second])
    given = bout.final["white"]
    assert (given.waza_ari, given.yuko) == ((0, 1) if values[1] == "yuko" else (1, 0))


# "Shido apiece." "A yellow card each": told over, not two each.
def test_a_penalty_of_both_told_over() -> None:
    both = [*fault("white", "shido"), *fault("blue", "shido")]
    assert {
        side: tally.shido for side, tally in bout_of("judo.2018", _at_once(both, both)).final.items()
    } == {
        "white": 1,
        "blue": 1,
    }


def _at_once(*pairs: list[Told]) -> list[Told]:
    """Each pair in one moment, three seconds apart."""
    return [
        told | {"start_ms": 40_000 + 3_000 * n, "end_ms": 40_500 + 3_000 * n}
        for n, two in enumerate(pairs)
        for told in two
    ]


# "Shido to blue, that's three, so it's hansoku-make": of the one just penalised.
def test_who_is_put_out_is_who_was_just_penalised() -> None:
    third = fault("blue", "shido")[0]
    out: Told = {
        "kind": "penalty",
        "concept": "hansoku-make",
        "status": "given",
        "sides": {"white": 0.6, "blue": 0.4},
    }
    bout = bout_of("judo.2018", *[fault("white", "shido")] * 2, *[fault("blue", "shido")] * 2, [third, out])
    assert (bout.result.winner, bout.final["blue"].shido) == ("white", 3)


# "And out: so yuko, the second for blue": the words tell whose hold it was, heard as the other's before.
def test_an_award_told_tells_whose_the_hold_was() -> None:
    sides = {"white": 0.96, "blue": 0.04}
    held = [told | {"side": "white", "sides": sides} for told in hold("white", 6)]
    told_award = award("blue", "yuko")[0] | {"told": True, "sides": {"white": 0.04, "blue": 0.96}}
    bout = bout_of("judo.2025", award("blue", "yuko"), [*held, told_award])
    assert (bout.final["white"].yuko, bout.final["blue"].yuko) == (0, 2)


# "Six, and out! … toketa at six": the end of one hold told twice is one hold.
def test_the_end_of_a_hold_told_twice() -> None:
    once_more = hold("white", 6)[1:]
    bout = bout_of("judo.2025", [*hold("white", 6), *once_more, *award("white", "yuko")])
    assert bout.final["white"].yuko == 1


# A word of warning in wrestling is as often free as a caution.
def test_a_wrestling_warning_is_no_sure_caution() -> None:
    assert points(bout_of("uww.fs", award("red", 2), fault("red", "warning"))) == (2, 0)
    assert points(bout_of("uww.fs", award("red", 2), fault("red", "caution"))) == (2, 1)


# "Shido to blue, so it's hansoku-make", told after "that's it": nobody has been named the winner yet.
def test_a_call_soon_after_the_end_is_of_it() -> None:
    third = [*call("end"), *fault("blue", "shido"), *fault("blue", "hansoku-make")]
    bout = bout_of("judo.2018", fault("blue", "shido"), fault("blue", "shido"), third)
    assert bout.final["blue"].shido == 3


# "Both feet out! One! Red!": what was done speaks for an award that its words leave doubtful.
@pytest.mark.parametrize(("done", "red"), [(True, 3), (False, 2)])
def test_a_doubtful_award_for_something_done(done: bool, red: int) -> None:
    doubtful = award("red", 1)[0] | {"statuses": {"given": 0.47, "recalled": 0.45}}
    bout = bout_of("uww.fs", award("red", 2), [*(place("blue") if done else []), doubtful])
    assert points(bout) == (red, 0)


def slip(tallies: list[Told]) -> list[Told]:
    """Scores stated and taken back."""
    return [told | {"status": "denied"} for told in tallies]


# Common practice, no source: who takes back the score he came to may have heard the award before it wrongly;
# the next award is then in its place.
@pytest.mark.parametrize(
    ("said", "final"),
    [
        (slip(stated(red=5, blue=4)) + award("red", 2) + stated(red=3, blue=4), (3, 4)),
        (slip(stated(red=5, blue=4)) + award("red", 2) + stated(red=7, blue=4), (7, 4)),
        (slip(stated(red=6, blue=4)) + stated(red=5, blue=4), (5, 4)),
    ],
)
def test_an_award_may_be_the_slip_that_a_score_was(said: list[Told], final: tuple[int, int]) -> None:
    opened = stated(red=1, blue=4)
    acts = award("red", 1), award("blue", 4) + opened, throw("red") + award("red", 4) + said
    assert points(bout_of("sambo.sport.2020", *acts)) == final


# A score in numbers outweighs a lead told afterwards of some moment before ("two in front, and he threw").
def test_a_lead_told_after_the_end_proves_no_score() -> None:
    lead: list[Told] = [{"kind": "stated_score", "concept": "score", "status": "stated", "margin": 2}]
    acts = (
        award("red", 2),
        award("blue", 2) + stated(red=2, blue=2),
        throw("blue", "bridge"),
        result("blue", "fall"),
    )
    assert points(bout_of("uww.gr", *acts, lead)) == (2, 2)


# UWW (WP-04, WP-05): thirty seconds without a point of the passive wrestler are one for the other.
@pytest.mark.parametrize(
    ("between", "final", "activity"),
    [
        ([], (1, 0), True),
        (award("blue", 2), (1, 2), False),
        (award("red", 2), (3, 0), True),
        # Called, it is not given once more.
        (award("red", 1), (1, 0), False),
    ],
)
def test_the_activity_clock_may_run_out_unsaid(
    between: list[Told], final: tuple[int, int], activity: bool
) -> None:
    passive = fault("blue", "passivity")
    acts = passive, passive + clock(30) + between, clock(80) + stated(red=final[0], blue=final[1])
    bout = bout_of("uww.fs", *acts)
    assert points(bout) == final
    assert any(event.counts and event.concept == "activity" for event in bout.events) == activity


# One way to red's two is likelier than each of three to blue's, but blue's two is likelier than red's: though
# both lead to two all, the score goes by way of blue's.
def test_the_score_goes_by_way_of_likely_scoreboards() -> None:
    board = grid(plan(RULESETS["uww.fs"], 4, {}, {}, None))
    red, blue = ((Move("award", side, 2),) for side in (0, 1))
    first = Choice(red, 0.28), Choice(blue, 0.24), Choice(blue, 0.24), Choice(blue, 0.24)
    then = Choice(red, 0.5), Choice(blue, 0.5)
    level = np.equal(*board.tally["points"]) & (board.tally["points"][0] == 2)
    solved = solve(board, [Step(0, first), Step(1, then)], level.astype(float))
    shown = [tuple(int(side[state]) for side in board.tally["points"]) for _, state in solved.path]
    assert shown == [(0, 2), (2, 2)]


# FIAS 2020 (PENZA, SM-01 to SM-05): how both went down gives the value of a throw nobody named; a score
# stated shows that there was one, and no line of the score stands in a silence.
@pytest.mark.parametrize(
    ("on", "fell", "value"), [("side", True, 2), ("side", False, 4), ("buttocks", True, 1), ("back", True, 4)]
)
def test_a_landing_tells_of_a_throw_nobody_named(on: str, fell: bool, value: int) -> None:
    landing = throw("red", on=on, fell=fell)[1:]
    bout = bout_of("sambo.sport.2020", landing, stated(red=value, blue=0))
    (line,) = [event for event in bout.events if event.counts]
    assert (line.concept, line.points, line.side) == ("throw", value, "red")


# Without a score behind it, it may as well be talk.
def test_a_landing_alone_scores_nothing() -> None:
    bout = bout_of("sambo.sport.2020", throw("red", on="side", fell=True)[1:], clock(100), clock(60))
    assert points(bout) == (0, 0)


# Told late, it explains the throw before and is none of its own.
def test_a_landing_told_late_is_of_the_throw_before() -> None:
    acts = (
        throw("red") + award("red", 4) + call("stop") + clock(200) + throw("red", on="side", fell=False)[1:]
    )
    assert points(bout_of("sambo.sport.2020", acts, clock(150))) == (4, 0)


# Common practice, no source: "A warning, so one more for blue. No, they don't give it: still four one."
# What was given for a fault and taken back is no line; the lines add up to the score.
def test_a_point_for_a_fault_is_taken_back() -> None:
    slip = [stated(red=1, blue=5)[0] | {"status": "denied"}]
    bout = bout_of(
        "sambo.sport.legacy",
        award("red", 1) + stated(red=1, blue=0),
        award("blue", 4) + stated(red=1, blue=4),
        fault("red", "warning") + award("blue", 1) + slip + award("blue", 0, "denied"),
        stated(red=1, blue=4),
        award("red", 2) + stated(red=3, blue=4),
    )
    assert points(bout) == (3, 4)
    lines = [(event.side, event.points) for event in bout.events if event.counts]
    assert sorted(lines) == [("blue", 4), ("red", 1), ("red", 2)]


def _classes(bout: Bout) -> list[tuple[str | None, str | None]]:
    return [(event.side, event.score_class) for event in bout.events if event.counts]


IPPON = award("blue", "ippon")[0] | {"concept": "ippon"}


# "Ippon blue! Thirty-one seconds!", and then the rules explained: "that's yuko, more to the back, waza-ari".
def test_what_is_told_after_an_ippon_is_no_score() -> None:
    after = [award(None, "yuko"), award("white", "waza-ari")]
    ended = [*throw("blue", "ura-nage"), IPPON, *clock(31)]
    assert _classes(bout_of("judo.2025", clock(220), ended, call("stop"), *after)) == [("blue", "ippon")]


# "Ippon! … No, waza-ari, they say. Hajime": what is called less at once is the score, and the bout goes on.
def test_less_than_the_ippon_called_is_no_retelling() -> None:
    less = award("blue", "waza-ari")[0] | {"attributes": ("instead",)}
    called = [*throw("blue", "ura-nage"), IPPON, less]
    bout = bout_of("judo.2025", called, call("restart"), throw("white") + award("white", "yuko"))
    assert _classes(bout) == [("blue", "waza-ari"), ("white", "yuko")]


# "He was leading with nine seconds left once" tells of another clock: nothing of this bout is over.
def test_a_clock_faster_than_time_is_of_another_bout() -> None:
    taken_back = award(None, "none", "denied")[0] | {
        "score_class": None,
        "of": "taken-back",
        "statuses": {"denied": 0.82, "given": 0.1},
    }
    scored = throw("white", "uchi-mata") + award("white", "waza-ari")
    bout = bout_of("judo.2018", clock(210), clock(190), clock(9), scored, [taken_back], clock(100))
    assert _classes(bout) == []


# A start called once the talk had it that all was over: the clock goes on from the one read before it.
@pytest.mark.parametrize(("later", "bouts"), [(70, 1), (235, 2)])
def test_a_clock_that_runs_on_opens_no_bout(later: int, bouts: int) -> None:
    acts = [
        call("start"), throw("white") + award("white", "yuko"), clock(150), call("end"),
        result("white", "points"), call("start") + clock(later), throw("blue") + award("blue", "yuko"),
        throw("blue") + award("blue", "waza-ari"), clock(min(later, 60)),
    ]  # fmt: skip
    assert len(keep(tell(*acts, ruleset="judo.2025"), RULESETS).bouts) == bouts


# However often the scores of a bout that is over are told over, none of them was given then.
def test_much_told_over_leaves_the_ippon() -> None:
    likely = {"statuses": {"given": 0.8, "denied": 0.1, "supposed": 0.1}}
    told = [
        [award(None, value)[0] | likely] for value in ("yuko", "waza-ari", "ippon", "waza-ari", "ippon") * 2
    ]
    bout = bout_of("judo.2025", clock(220), [*throw("blue", "ura-nage"), IPPON | likely], *told)
    (line,) = [event for event in bout.events if event.counts]
    assert (line.side, line.score_class, line.start_ms) == ("blue", "ippon", 64_000)


# "That's two … two more": each line has its own words and the score after it.
def test_each_of_two_awards_has_the_score_after_it() -> None:
    bout = bout_of(
        "uww.fs", throw("red", "leg-lace") + award("red", 2) + award("red", 2), stated(red=4, blue=0)
    )
    lines = [event for event in bout.events if event.counts]
    assert [event.score_after["red"].points for event in lines] == [2, 4]
    assert lines[0].start_ms < lines[1].start_ms


# "On the knees, and over he goes, on his side": where he ends is what it gives (PENZA: side, thrower up, 4).
def test_a_throw_ends_where_it_ends() -> None:
    bout = bout_of("sambo.sport.2020", throw("red", on="knees") + throw("red", on="side", fell=False)[1:])
    assert points(bout) == (4, 0)


# An award that is taken back afterwards is no contradiction.
def test_what_is_taken_back_adds_up() -> None:
    back = [told | {"of": "taken-back"} for told in award(None, 0, "denied")]
    bout = bout_of("uww.fs", throw("red", "takedown") + award("red", 2), back, stated(red=0, blue=0))
    assert points(bout) == (0, 0)
    assert bout.contradictions == ()


# So does an award told over or put right, and the ippon that two waza-ari make (IJF 2018: awasete-ippon).
@pytest.mark.parametrize(
    ("rules", "acts"),
    [
        ("uww.fs", [throw("red", "takedown") + award("red", 2), award("red", 2), stated(red=2, blue=0)]),
        ("judo.2018", [award("white", "waza-ari"), award("white", "waza-ari") + award("white", "ippon")]),
        ("uww.fs", [award("red", 4) + award("red", 2), stated(red=2, blue=0)]),
    ],
)
def test_what_is_told_over_adds_up(rules: str, acts: list[list[Told]]) -> None:
    assert bout_of(rules, *acts).contradictions == ()


# Another award for which the stated score has no room does not.
def test_an_award_without_room_does_not_add_up() -> None:
    bout = bout_of("uww.fs", award("red", 4), stated(red=4, blue=0), award("blue", 2), stated(red=4, blue=0))
    (clash,) = bout.contradictions
    assert "2 for blue" in clash.problem


# NFHS (row sides: red and green): a club bout in red and blue under the same rules.
def test_whoever_wears_other_colours_than_the_rules_say() -> None:
    sheet = Sheet(
        ruleset="nfhs.2024", competitors=(Competitor(side="red"), Competitor(side="blue", name="Tarik"))
    )
    told = tell(throw("blue", "reversal") + award("blue", 2), ruleset="nfhs.2024")
    (bout,) = keep(told.model_copy(update={"sheet": sheet}), RULESETS).bouts
    assert bout.sides == ("red", "blue")
    assert bout.final["blue"].points == 2
    assert bout.competitors[1].name == "Tarik"


# "Body lock from blue … red lands on top. Two more, red": the two are for no attack of blue's.
def test_the_answer_to_an_attack_is_paid_not_the_attack() -> None:
    lock: list[Told] = [
        {
            "kind": "technique",
            "concept": "body-lock",
            "status": "completed",
            "sides": {"red": 0.05, "blue": 0.95},
        }
    ]
    bout = bout_of("uww.gr", lock + award("red", 2), stated(red=2, blue=0))
    (line,) = [event for event in bout.events if event.counts]
    assert (line.side, line.concept) == ("red", "points")


# "A step out, one more" right after a throw's four, both counted: the one is not for the throw.
def test_a_second_award_is_not_for_what_was_paid() -> None:
    bout = bout_of(
        "uww.fs", throw("red", "double-leg") + award("red", 4) + award("red", 1), stated(red=5, blue=0)
    )
    lines = [(event.concept, event.points) for event in bout.events if event.counts]
    assert lines == [("double-leg", 4), ("points", 1)]


# Words that take a score back are no second call of it, however unsure they are.
def test_taking_back_is_no_call() -> None:
    statuses = {"denied": 0.88, "given": 0.06}
    back = [told | {"of": "taken-back", "statuses": statuses} for told in award("blue", "yuko", "denied")]
    bout = bout_of("judo.2025", throw("blue", "o-uchi-gari") + award("blue", "yuko") + back)
    assert bout.final["blue"].yuko == 0


# An award called right behind a stepping out, before a passivity is told, is for the stepping out; the
# passivity brings its own point by wrestling's published rules.
def test_an_award_before_a_penalty_is_for_what_was_before_it() -> None:
    out: list[Told] = [
        {
            "kind": "position",
            "concept": "out",
            "status": "stated",
            "side": "blue",
            "sides": {"red": 0.36, "blue": 0.64},
        }
    ]
    told = (call("start"), out, award("red", 1), fault("blue", "passivity"), stated(red=2, blue=0))
    (bout,) = keep(tell(*told, ruleset="uww.gr", apart_ms=1_200), RULESETS).bouts
    counted = [(event.concept, event.unspoken) for event in bout.events if event.counts]
    assert counted == [("step-out", False), ("passivity", True)]
