"""Who has what by now in judo, told beside what was given. Phrases: common practice, no source."""

import pytest
from saying import hear

from hikite.records import Tally

HALF, CARD = Tally(waza_ari=1), Tally(shido=1)
TWO = Tally(shido=2)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Which one it was that was just given.
        ("Shido for Tarik. That's his second.", [{"blue": TWO}]),
        ("Mate. Another card to Orsan. That's number two.", [{"red": TWO}]),
        ("False attack. That's two on Orsan now.", [{"red": TWO}]),
        # An attempt or a score is counted, and no card.
        ("Uchi-mata from Tarik. That's his second.", []),
        ("Shido for Tarik. Waza-ari for Orsan! That's her second.", []),
        # What each has, of both kinds.
        ("That's a half each, a card each.", [{"red": HALF, "blue": HALF}, {"red": CARD, "blue": CARD}]),
        ("One half and one half.", [{"red": HALF, "blue": HALF}]),
        ("Both are now on two.", [{"red": TWO, "blue": TWO}]),
        ("Orsan has the half.", [{"red": HALF}]),
        ("Orsan has the half guard.", []),
        # Scores and cards of one alone, told together.
        ("So he's a yuko and two shidos.", [{"red": Tally(yuko=1, shido=2)}]),
        ("Tarik has a waza-ari and a card.", [{"blue": Tally(waza_ari=1, shido=1)}]),
    ],
)
def test_what_they_have(said: str, expected: list[dict[str, Tally]]) -> None:
    assert [claim.tallies for claim in hear(said, kind="stated_score", points=False)] == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # The sign for want of attacks; play stopped and counted.
        ("The referee's rolling his hands at the pair of them.", [("red", "given"), ("blue", "given")]),
        ("He's rolling the hands.", [(None, "given")]),
        ("Stops it. Hand on the leg. That's number two for Tarik.", [("blue", "given")]),
        ("Foot sweep. That's number two for Tarik.", []),
        ("Both of 'em get one.", [("red", "given"), ("blue", "given")]),
        ("Is he giving him another? He is.", [(None, "given")]),
        ("He's giving him another chance.", []),
        # What they have, and what would come.
        ("So, a half each, a card each.", []),
        ("They'll have him for a false attack.", [(None, "supposed")]),
        ("The third shido sinks you.", [(None, "supposed")]),
        ("One more slip and he's home.", [(None, "supposed")]),
        ("Third one's a disqualification.", [(None, "supposed")]),
    ],
)
def test_cards(said: str, expected: list[tuple[str | None, str]]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.side, claim.status) for claim in claims] == expected


@pytest.mark.parametrize(
    "said", ["Arm straight out again!", "That's the other half!", "It's over. That's the half one."]
)
def test_the_second_half(said: str) -> None:
    (claim,) = hear(said, kind="score", points=False)
    assert (claim.score_class, claim.status) == ("waza-ari", "given")


def test_into_the_hold() -> None:
    (claim,) = hear("And into the hold goes Tarik.", kind="hold", points=False)
    assert (claim.status, claim.side) == ("running", "blue")
    assert not hear("He looks to turn him into a hold.", kind="hold", points=False)


@pytest.mark.parametrize("said", ["Hajime. He's stopping it.", "Hajime. Stops it.", "Hajime. Stops play."])
def test_play_is_stopped(said: str) -> None:
    assert [claim.concept for claim in hear(said, kind="stoppage", points=False)] == ["start", "stop"]


# What would be enough; a part of the bout that is lost; a pin is no result of judo.
def test_what_would_be_enough() -> None:
    (claim,) = hear("Any score now. A yuko, a sneeze.", kind="score", points=False)
    assert claim.status == "supposed"


@pytest.mark.parametrize(
    ("said", "points", "expected"),
    [
        ("So Orsan loses the first three minutes.", False, []),
        ("Tarik loses the exchange.", False, []),
        ("Tarik pins him for half.", False, []),
        ("Tarik pins him!", True, ["fall"]),
        ("That's time and it's Tarik, on yukos.", False, ["points"]),
        ("Tarik is put off.", False, ["disqualification"]),
        ("Tarik is put off by the noise.", False, []),
    ],
)
def test_no_results(said: str, points: bool, expected: list[str]) -> None:
    assert [claim.concept for claim in hear(said, kind="result", points=points)] == expected


# Nothing came of it, in so many words and no more; asked first.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Foot sweep. Nothing on it.", ["denied"]),
        ("No, nothing.", ["denied"]),
        ("Nowt comes of it, he's away.", ["denied"]),
        ("Was that a score?", ["supposed"]),
        ("Don't count cards.", []),
        ("Nothing much to see in this hall.", []),
    ],
)
def test_nothing(said: str, expected: list[str]) -> None:
    assert [claim.status for claim in hear(said, kind="score", points=False)] == expected


@pytest.mark.parametrize(
    ("said", "seconds", "elapsed"),
    [
        ("Mate. Two and a half to go.", 150, False),
        ("A minute and three quarters to go.", 105, False),
        ("Mate. Forty-eight gone.", 48, True),
        # Tens and ones that a recogniser wrote together.
        ("Mate. 401 seconds left on the clock.", 41, False),
    ],
)
def test_clocks_in_few_words(said: str, seconds: int, elapsed: bool) -> None:
    (claim,) = hear(said, kind="clock", points=False)
    assert (claim.seconds, claim.elapsed) == (seconds, elapsed)


@pytest.mark.parametrize(
    "said",
    [
        "Toketa. Eight seconds buys you a yuko.",
        "Toketa. But six seconds is beyond five.",
        "Twelve seconds of holding.",
    ],
)
def test_a_hold_told_over(said: str) -> None:
    assert hear(said, kind="hold", points=False)[-1].status == "recalled"


# How long it was may be told after it was broken; what it would have brought was not.
@pytest.mark.parametrize(
    ("said", "seconds"),
    [
        ("Osaekomi. He's out, toketa! Sixteen seconds, I think, when he got out.", 16),
        ("Osaekomi. One, two, three, oh he's turning. Toketa! If he holds that for ten it's over.", 3),
    ],
)
def test_how_long_a_broken_hold_was(said: str, seconds: int) -> None:
    holds = hear(said, kind="hold", points=False)
    assert [one.seconds for one in holds if one.status == "broken"] == [seconds]


def test_what_both_have_is_no_count() -> None:
    def told(last: str) -> list[int | None]:
        return [
            one.seconds
            for one in hear("Osaekomi. Seven. Toketa.", last, kind="hold", points=False)
            if one.status == "recalled"
        ]

    assert told("Those seven, he had them.") == [7]
    assert told("Those six apiece.") == []
