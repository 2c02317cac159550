"""A judo score told over in its parts: scores and cards of each, what numbers count, whose they are."""

import pytest
from saying import hear

from hikite.records import Tally

ONE_OF_BOTH = Tally(yuko=1, shido=1)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # A score and a card of each.
        ("So one yuko and one card apiece.", {"red": ONE_OF_BOTH, "blue": ONE_OF_BOTH}),
        ("A yuko and a card each.", {"red": ONE_OF_BOTH, "blue": ONE_OF_BOTH}),
        ("One shido and one yuko each now.", {"red": ONE_OF_BOTH, "blue": ONE_OF_BOTH}),
        # Whose it is stands behind the numbers.
        ("So it's a yuko to nothing for Tarik.", {"red": Tally(yuko=0), "blue": Tally(yuko=1)}),
        ("A waza-ari to nil for Orsan.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=0)}),
        # What the numbers count stands behind them, or in front.
        ("Orsan two, Tarik one, in cards I mean.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        ("In shidos it's one and one.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("One each in waza-ari.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=1)}),
        ("Shidos, two and one.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        ("Two one, shidos that is.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        # Each in a statement of its own, with how many.
        ("Red, Orsan, one shido. Blue, Tarik, two shidos.", {"red": Tally(shido=1), "blue": Tally(shido=2)}),
        ("Tarik on a shido.", {"blue": Tally(shido=1)}),
        ("Two yukos, one waza-ari.", {"red": Tally(yuko=2), "blue": Tally(waza_ari=1)}),
        ("I make it still nothing, nothing.", {"red": Tally(waza_ari=0), "blue": Tally(waza_ari=0)}),
        ("So that's Tarik on two.", {"blue": Tally(waza_ari=2)}),
    ],
)
def test_what_each_has_told_over(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == expected
    assert hear(said, kind="score", points=False) == []
    assert hear(said, kind="penalty", points=False) == []


# Awards, and what counts nothing.
@pytest.mark.parametrize(
    "said",
    [
        "Red, waza-ari. Blue, yuko.",
        "Red, shido. Blue, shido.",
        "He does nothing, nothing at all.",
        "Nothing, nothing, he pushes.",
        "That leaves Tarik on two feet.",
        "I was a yuko up in my first final.",
        "Two yukos, one waza-ari for Orsan came out of that.",
    ],
)
def test_no_score_of_both(said: str) -> None:
    told = hear(said, kind="stated_score", points=False)
    assert [claim for claim in told if len(claim.tallies) > 1 or "class unsaid" in claim.attributes] == []


def test_nobody_scored() -> None:
    (claim,) = hear("A penalty apiece and not a score in it.", kind="stated_score", points=False)
    assert claim.tallies["red"] == claim.tallies["blue"] == Tally(ippon=0, waza_ari=0, yuko=0)


# A penalty of both, and one of neither yet.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Shido to the both of them.", [("red", "given"), ("blue", "given")]),
        ("Shido both.", [("red", "given"), ("blue", "given")]),
        ("Shido coming, I reckon.", [(None, "supposed")]),
        ("Small, large, or a third card for somebody.", [(None, "supposed")]),
        ("Or a third shido for red.", [("red", "supposed")]),
        ("A further shido will cost a lot.", [(None, "supposed")]),
        # Called by whoever watches.
        ("False attack, sir! False attack!", [(None, "supposed"), (None, "given")]),
        ("That's a false attack in any country.", [(None, "supposed")]),
        ("False attack. Shido, blue.", [("blue", "given")]),
        # Whose it is, after what it is for, and put right.
        ("Shido for the pistol grip, um, to red.", [("red", "given")]),
        ("Shido for the pistol, um, to red. No, what am I saying, to blue.", [("blue", "given")]),
    ],
)
def test_penalties_told_of(said: str, expected: list[tuple[str | None, str]]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.side, claim.status) for claim in claims] == expected


# Other sports' word for the lightest is judo's shido, and the same one named twice is one.
def test_a_remark_in_judo() -> None:
    (claim,) = hear("Remark goes to blue. Shido.", kind="penalty", points=False)
    assert (claim.concept, claim.side) == ("shido", "blue")
    assert {claim.concept for claim in hear("Remark goes to blue.", kind="penalty")} == {"remark"}


# IJF 2017 (JE-03): the third puts out.
def test_a_further_one_would_end_it() -> None:
    (claim,) = hear("A further shido will be hansoku-make.", kind="penalty", points=False)
    assert (claim.status, claim.of) == ("supposed", "brink")


@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Orsan by a hold, in red.", "red"),
        ("With one waza-ari wins Tarik.", "blue"),
        ("Tarik by a single score.", "blue"),
    ],
)
def test_who_won_and_by_what(said: str, side: str) -> None:
    (claim,) = hear(said, kind="result", points=False)
    assert (claim.concept, claim.side, claim.status) == ("points", side, "given")


# What a hold would need is not how long it has been.
@pytest.mark.parametrize("said", ["Osaekomi. Ten will be enough.", "Osaekomi. Twenty would do it."])
def test_seconds_that_would_be_enough(said: str) -> None:
    (claim,) = hear(said, kind="hold", points=False)
    assert (claim.status, claim.seconds) == ("running", None)


# What is told of another mat is of another bout; the mat named first is this one.
@pytest.mark.parametrize(
    ("said", "statuses"),
    [
        (("Mat two. Contest nine.", "From mat one, a win by ippon for Lidgate."), ["recalled"]),
        (("Mat two. Contest nine.", "Mat one result. Hansoku-make, Brandhurst."), ["recalled"]),
        (("On the next mat, ippon! What a throw.",), ["recalled"]),
        # Of this mat, or of somebody who fights on it.
        (("Mat two.", "The review on mat two is over. Ippon."), ["given"]),
        (("Mat two.", "They cheer on mat one. Ippon for Tarik!"), ["given"]),
    ],
)
def test_another_mat(said: tuple[str, ...], statuses: list[str]) -> None:
    claims = hear(*said, points=False)
    assert [claim.status for claim in claims if claim.kind in ("score", "penalty", "result")] == statuses


# Told of as over: the length of a hold, the reason of a penalty.
@pytest.mark.parametrize(
    ("said", "kind", "expected"),
    [
        ("Osaekomi. Seven, eight. Toketa. She had eight.", "hold", ("recalled", 8)),
        ("Osaekomi. Three, four. Toketa. Four seconds is a cuddle.", "hold", ("recalled", 4)),
        ("Shido to blue. That shido for stepping outside.", "penalty", ("recalled", None)),
        ("Third one's fatal for either.", "penalty", ("supposed", None)),
    ],
)
def test_told_of_as_over(said: str, kind: str, expected: tuple[str, int | None]) -> None:
    claim = hear(said, kind=kind, points=False)[-1]
    assert (claim.status, claim.seconds) == expected


@pytest.mark.parametrize("said", ["She had eight. So, nothing.", "That's nothing, then."])
def test_nothing_comes_of_it(said: str) -> None:
    (claim,) = hear(said, kind="score", points=False)
    assert claim.status == "denied"


def test_the_winner_by_colour() -> None:
    (claim,) = hear("The winner, in red, from Velmark, Orsan.", kind="result", points=False)
    assert (claim.concept, claim.side) == ("points", "red")


# IJF 2018 (JF-04): golden score follows a level bout, so its bell ends nothing; judo has no rounds.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Hajime! Mate. Hajime. There's the bell. Golden score.", ["start", "stop", "restart", "stop"]),
        ("Hajime! Mate. Hajime. There's the bell. She has won.", ["start", "stop", "restart", "end"]),
        ("Second round, this. They bow. Hajime! Mate.", ["start", "stop"]),
        ("Hajime! That's the end of my career. Mate. Hajime.", ["start", "stop", "restart"]),
    ],
)
def test_stoppages_in_judo(said: str, expected: list[str]) -> None:
    assert [claim.concept for claim in hear(said, kind="stoppage", points=False)] == expected


# How far one is ahead, what both have, and that it is level, in other words.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Orsan is sitting on two penalties.", {"red": Tally(shido=2)}),
        ("Tarik has one shido against his name.", {"blue": Tally(shido=1)}),
        ("Neither has a shido.", {"red": Tally(shido=0), "blue": Tally(shido=0)}),
        ("Shido count is one each.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("So that's a card each.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("Which makes it a shido each.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("One card for blue, then.", {"blue": Tally(shido=1)}),
        ("Penalty count, one all.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("Orsan a waza-ari to the good.", {"red": Tally(waza_ari=1)}),
        ("Only a yuko in it.", {"red": Tally(yuko=1)}),
    ],
)
def test_what_stands(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == expected
    assert hear(said, kind="penalty", points=False) == hear(said, kind="score", points=False) == []


@pytest.mark.parametrize("said", ["That evens it up.", "That brings him level.", "Level pegging again."])
def test_level_once_more(said: str) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.margin == 0


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("That's good enough for a waza-ari.", [("waza-ari", "given")]),
        ("It's been called waza-ari.", [("waza-ari", "given")]),
        ("Waza-ari is the call.", [("waza-ari", "given")]),
        ("Not enough for a waza-ari.", [("waza-ari", "denied")]),
        ("Waza-ari still separates them.", [("waza-ari", "recalled")]),
        ("On the scoreboard, a waza-ari for Orsan.", [("waza-ari", "recalled")]),
        ("Ten, and fifteen's a waza-ari.", [("waza-ari", "supposed")]),
        ("Yuko is the smallest of them.", []),
        ("Yuko is the lowest score.", []),
        ("A thing called a koka.", []),
    ],
)
def test_given_or_told_over(said: str, expected: list[tuple[str, str]]) -> None:
    claims = hear(said, kind="score", points=False)
    assert [(claim.score_class, claim.status) for claim in claims] == expected


@pytest.mark.parametrize(
    ("said", "sides"),
    [
        ("Penalised again, Orsan, for going out.", ["red"]),
        ("The referee penalises both for passivity.", ["red", "blue"]),
        ("Shido there against red for a bear hug.", ["red"]),
        ("Blue is given his first shido.", ["blue"]),
        ("A shido behind.", []),
        ("He hands out a card. It's for blue.", ["blue"]),
        # Asked, and answered.
        ("A shido? Who for? Red?... No, blue.", ["blue"]),
        ("Is he giving him another? He is. Blue, for hiding.", ["blue"]),
        ("There's a shido. Who for? Red steps back.", [None]),
        # With the hand alone: none.
        ("He's warning them, just with his hand.", []),
        ("Tarik gets a shido. And another for his opponent.", ["blue", "red"]),
    ],
)
def test_who_is_penalised(said: str, sides: list[str]) -> None:
    assert [claim.side for claim in hear(said, kind="penalty", points=False)] == sides


# Told over side by side, both are had; what another one would do is no penalty.
def test_apiece_beside_apiece() -> None:
    assert hear("Waza-ari apiece, shido apiece.", kind="penalty", points=False) == []
    (claim,) = hear("Another shido there and it's level.", kind="penalty", points=False)
    assert claim.status == "supposed"


# A call that is all of a statement is for whoever is named behind it.
@pytest.mark.parametrize(("said", "side"), [("Osaekomi, blue.", "blue"), ("Osaekomi. Tarik bridges.", None)])
def test_a_hold_called_for_somebody(said: str, side: str | None) -> None:
    mentions = (("osaekomi", "hold", "osaekomi"),)
    assert hear(said, kind="hold", points=False, mentions=mentions)[0].side == side


# The video lowers it: the takedown in the words is none.
def test_brought_down_by_the_table() -> None:
    claims = hear("Waza-ari for Orsan! They've brought it down. Yuko.", kind="score", points=False)
    assert [(claim.score_class, claim.status) for claim in claims] == [
        ("waza-ari", "given"), ("waza-ari", "denied"), ("yuko", "given"),
    ]  # fmt: skip
