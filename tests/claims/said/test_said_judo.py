"""How a judo score, its leads and its cards are told: counts, leads without numbers, one card to go."""

import pytest
from saying import hear

from hikite.records import Tally

BLANK = Tally(waza_ari=0, yuko=0, ippon=0)


@pytest.mark.parametrize(
    "said",
    [
        "Still no score from either of them.", "Nobody has scored yet.", "Neither fighter has scored.",
        "Nothing on the scoreboard so far.", "A blank scoreboard.", "Still nothing on the board.",
    ],
)  # fmt: skip
def test_no_score_yet(said: str) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == {"red": BLANK, "blue": BLANK}


# Who leads, and in what.
@pytest.mark.parametrize(
    ("said", "side", "attributes"),
    [
        ("Tarik leads.", "blue", ()),
        ("Orsan is in front again.", "red", ()),
        ("Blue has the lead.", "blue", ()),
        ("Orsan is still behind.", "blue", ()),
        ("She's ahead.", None, ("ahead",)),
        ("Still behind.", None, ("behind",)),
    ],
)
def test_a_lead_without_a_number(said: str, side: str | None, attributes: tuple[str, ...]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert (claim.side, claim.margin, claim.tallies, claim.attributes) == (side, None, {}, attributes)


@pytest.mark.parametrize(
    ("said", "of"), [("They're level on shidos.", "shido"), ("Level on the scoreboard.", None)]
)
def test_level_in_what(said: str, of: str | None) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert (claim.margin, claim.of) == (0, of)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Orsan has two shidos to one.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        ("Blue's on two cards to one.", {"red": Tally(shido=1), "blue": Tally(shido=2)}),
        ("Two of the little ones against one big one.", {"red": Tally(yuko=2)}),
        # Each with what it has, one after the other.
        (
            "Orsan with a waza-ari and a yuko, Tarik just the yuko.",
            {"red": Tally(waza_ari=1, yuko=1), "blue": Tally(waza_ari=0, yuko=1)},
        ),
        ("A throw each.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=1)}),
        ("A small one each.", {"red": Tally(yuko=1), "blue": Tally(yuko=1)}),
        ("A clean slate.", {"red": BLANK, "blue": BLANK}),
        ("Orsan has two in the naughty book.", {"red": Tally(shido=2)}),
        ("Nobody carded so far.", {"red": Tally(shido=0), "blue": Tally(shido=0)}),
        ("I don't believe we've seen a penalty yet.", {"red": Tally(shido=0), "blue": Tally(shido=0)}),
        ("There hasn't been a card yet.", {"red": Tally(shido=0), "blue": Tally(shido=0)}),
        ("On cards Orsan finished on two and Tarik on one.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        # As a recogniser writes it.
        ("Two chidos on blue.", {"blue": Tally(shido=2)}),
        ("orsan has the one she do", {"red": Tally(shido=1)}),
        ("so it is one you co each", {"red": Tally(yuko=1), "blue": Tally(yuko=1)}),
        # A statement each, and right after a penalty.
        (
            "Orsan one waza-ari, one shido. Tarik one shido.",
            {"red": Tally(waza_ari=1, yuko=0, shido=1), "blue": Tally(waza_ari=0, yuko=0, shido=1)},
        ),
        ("Shido both. Two for blue, one for red.", {"blue": Tally(shido=2), "red": Tally(shido=1)}),
        # Of one of them, and what both have.
        ("One shido on the board for each of them.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("No penalties on Orsan.", {"red": Tally(shido=0)}),
        ("Two all in shidos.", {"red": Tally(shido=2), "blue": Tally(shido=2)}),
        ("Two yokos to one.", {"red": Tally(yuko=2), "blue": Tally(yuko=1)}),
    ],
)
def test_what_each_has(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == expected


@pytest.mark.parametrize(
    ("said", "side", "status", "attributes"),
    [
        ("Orsan gets a card for that.", "red", "given", ()),
        ("Blue picks up a second card.", "blue", "given", ("count:2",)),
        ("The card goes up against Tarik.", "blue", "given", ()),
        # Whose it is may be told with its count.
        ("Shido. That's Orsan's first.", "red", "given", ("count:1",)),
        ("Shido, and that's two against blue.", "blue", "given", ("count:2",)),
        ("So he gets his shido, does Tarik.", "blue", "given", ()),
        # Whom the referee turns to.
        ("The referee looks at Orsan. Non-combativity.", "red", "given", ()),
        ("Something now for Tarik, for the grip inside the cuff. That's one shido.", "blue", "given", ()),
        ("She turns to blue, takes her time, rolls the arms. Shido.", "blue", "given", ()),
        ("She turns to blue. Orsan fixes the belt. Shido.", None, "given", ()),
        ("There's a shido, I think it's to Orsan.", "red", "given", ()),
        ("Orsan picks one up for a false attack.", "red", "given", ()),
        # As a recogniser writes it in several words, the reason in between.
        ("so the referee says false attack she do blue", "blue", "given", ()),
        ("she dough for the pistol grip to red and they go again", "red", "given", ()),
        # Not yet given.
        ("My guess is another shido.", None, "supposed", ()),
        ("Don't talk to me about the third shido.", None, "recalled", ("count:3",)),
        ("You can get a penalty for that.", None, "supposed", ()),
        ("Shido would be his third.", None, "supposed", ("count:3",)),
        # Given, and then not.
        ("The shido's been taken away from Tarik.", "blue", "denied", ()),
        ("There's a penalty coming.", None, "supposed", ()),
        ("She's waiting for the shido.", None, "supposed", ()),
        ("Tarik is asking for another penalty.", "blue", "supposed", ()),
    ],
)
def test_cards(said: str, side: str | None, status: str, attributes: tuple[str, ...]) -> None:
    (claim,) = hear(said, kind="penalty", points=False)
    assert (claim.side, claim.status, claim.attributes) == (side, status, attributes)


# IJF 2017 (JE-03): the third puts out.
@pytest.mark.parametrize(
    "said",
    ["One more and she's out.", "One more of those and he's gone.", "She's one away from disqualification.",
     "The third would mean hansoku-make.", "One more of those and he may go home.",
     "He's on the brink of hansoku-make.", "Another shido and that's it for Tarik."],
)  # fmt: skip
def test_one_card_to_go(said: str) -> None:
    (claim,) = hear(said, kind="penalty", points=False)
    assert (claim.concept, claim.status, claim.of) == ("hansoku-make", "supposed", "brink")


# A penalty of each, right before one of them alone.
def test_one_of_each_and_then_one_more() -> None:
    claims = hear("A shido apiece. And another shido for Orsan.", kind="penalty", points=False)
    assert [claim.side for claim in claims] == ["red", "blue", "red"]


# IJF 2018 (JF-01).
@pytest.mark.parametrize(
    "said", ["Waza-ari awasete ippon!", "That's two waza-ari, ippon.", "The second waza-ari settles it."]
)
def test_two_make_one(said: str) -> None:
    (claim,) = hear(said, kind="result", points=False)
    assert (claim.concept, claim.of) == ("ippon", "sum")


# IJF referee's gestures (from memory): the arm straight up, or out at the height of the shoulder.
@pytest.mark.parametrize(
    ("said", "concept"),
    [
        ("Her arm goes straight up!", "ippon"),
        ("And her arm is out level with the shoulder.", "waza-ari"),
        ("Down comes the arm to the side.", "waza-ari"),
        # The arm that begins a hold.
        ("The arm goes out.", None),
    ],
)
def test_a_score_shown(said: str, concept: str | None) -> None:
    assert [claim.score_class for claim in hear(said, kind="score", points=False)] == [concept] * bool(
        concept
    )


def test_a_score_shown_and_said_is_one() -> None:
    (claim,) = hear("Her arm goes straight up! Ippon!", kind="score", points=False)
    assert claim.score_class == "ippon"


# "Second one for Tarik" counts what was called right before, not a penalty.
@pytest.mark.parametrize(
    ("said", "penalties"),
    [("Yuko again! Second one for Tarik.", 0), ("Off the mat. Second one for Tarik.", 1)],
)
def test_what_an_ordinal_counts(said: str, penalties: int) -> None:
    assert len(hear(said, kind="penalty", points=False)) == penalties


# A score talked about in general is nobody's.
@pytest.mark.parametrize("said", ["A waza-ari still beats that.", "Five is where yuko starts."])
def test_scores_in_general(said: str) -> None:
    assert hear(said, kind="score", points=False) == []


# "One shido on each of them" is what each has, however often it is said.
@pytest.mark.parametrize("said", ["One shido on each of them.", "A shido for each man.", "A cheeto each."])
def test_one_of_each(said: str) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.side, claim.attributes) for claim in claims] == [
        (side, ("both", "count:1")) for side in ("red", "blue")
    ]


# Talked of, not given.
@pytest.mark.parametrize(
    "said",
    [
        "A lead in shidos counts for nothing.",
        "She went out on shidos.",
        "The little yellow squares light up.",
        # Nothing that a recogniser wrote for one.
        "There's a picture of it, it's the first one in the book.",
        "The yellow light is on.",
        "what's she do now",
        "does she do this often",
    ],
)
def test_no_penalty(said: str) -> None:
    assert hear(said, kind="penalty", points=False) == []


# What was given is taken back.
@pytest.mark.parametrize(
    "said",
    ["They've wiped the yuko.", "The table have scrubbed out Tarik's yuko.", "Yuko is taken off.",
     "They take that yuko back.", "The yuko's off.", "The yuko disappears.",
     "the e pons gone", "The ippon's been reduced."],
)  # fmt: skip
def test_taken_back(said: str) -> None:
    claims = hear(said, kind="score", points=False)
    assert claims
    assert {(claim.status, claim.of) for claim in claims} == {("denied", "taken-back")}


# What it was given for is no taking back; an attack with nothing in it is no level score.
def test_not_taken_back() -> None:
    (claim,) = hear("Waza-ari off a good throw.", kind="score", points=False)
    assert claim.status == "given"
    assert hear("He drops with nothing in it.", kind="stated_score", points=False) == []


# Whose it is put right in the next breath.
@pytest.mark.parametrize(
    ("said", "kind", "side"),
    [
        ("Waza-ari to Tarik. To Orsan! I beg your pardon.", "score", "red"),
        ("Yuko for Orsan, no, sorry, for blue.", "score", "blue"),
        # Set apart where no marks are.
        ("he turns him over and that is a score wazari blue it is over", "score", "blue"),
        ("Shido to blue, sorry, to red.", "penalty", "red"),
        ("Shido for the grip, um, to red. No, what am I saying, to blue. He knows.", "penalty", "blue"),
        ("she dough for the grip um to red no what am i saying to blue he knows it", "penalty", "blue"),
        ("Waza-ari for Orsan. No, Tarik won't have it.", "score", "red"),
        # Farther off, once the sign is seen.
        ("Shido, Orsan, for... no, wait, look at the hand. It's Tarik's.", "penalty", "blue"),
    ],
)
def test_whose_put_right(said: str, kind: str, side: str) -> None:
    assert hear(said, kind=kind, points=False)[0].side == side


# A score by how much it is, not by name; and a name that is only talked of.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Down on the hip. A small score.", ["yuko"]),
        ("Only the smaller score.", ["yuko"]),
        ("A half point for Orsan.", ["waza-ari"]),
        ("Two half points make a whole one.", []),
        ("In my day we called that a koka.", []),
        ("Ten yukos don't make a waza-ari.", []),
        ("Don't think two of them make an ippon this season.", []),
        # As a recogniser writes them.
        ("you co says the referee", ["yuko"]),
        ("flat on the back a pawn", ["ippon"]),
        ("down on his backside coker is it", ["koka"]),
        ("a crate of coca cola for the winner", []),
    ],
)
def test_scores_by_their_size(said: str, expected: list[str]) -> None:
    claims = hear(said, kind="score", points=False)
    assert [claim.score_class for claim in claims] == expected


# Not a score apart; and who goes on.
def test_level_and_through() -> None:
    (level,) = hear("Not a thing between them on the board.", kind="stated_score", points=False)
    assert (level.margin, level.side) == (0, None)
    (result,) = hear("And Orsan into the last eight.", kind="result", points=False)
    assert (result.concept, result.side, result.status) == ("points", "red", "given")


# Into golden score.
@pytest.mark.parametrize(
    "said", ["Off we go into golden score.", "So it's into overtime they go.", "That takes us to extra time."]
)
def test_golden_score_begins(said: str) -> None:
    (claim,) = hear(said, kind="clock", points=False)
    assert (claim.seconds, claim.elapsed, claim.of) == (0, True, "golden-score")


# A score that is needed, or was nearly one, is not given; one that was called so is.
@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("She'll need ippon now.", "supposed"),
        ("He must get a waza-ari.", "supposed"),
        ("That could have been given ippon.", "supposed"),
        ("They've called it a yuko.", "given"),
    ],
)
def test_scores_needed(said: str, status: str) -> None:
    assert [one.status for one in hear(said, kind="score", points=False)] == [status]


# Whoever goes over in front of the score is not the one who gets it.
def test_over_goes_somebody() -> None:
    met = (("waza ari", "score", "waza-ari"),)
    for said, side in (("Over goes Tarik, waza-ari!", "red"), ("Tarik, waza-ari!", "blue")):
        (claim,) = hear(said, kind="score", points=False, mentions=met)
        assert claim.side == side


# A name that ends the statement before gets nothing.
def test_a_name_in_another_statement_is_nobodys_owner() -> None:
    claims = hear(
        "Over goes Tarik.",
        "Waza-ari to Orsan!",
        kind="score",
        points=False,
        mentions=(("waza ari", "score", "waza-ari"),),
    )
    assert [claim.side for claim in claims] == ["red"]
    (alone,) = hear(
        "Over goes Tarik.",
        "Waza-ari!",
        kind="score",
        points=False,
        mentions=(("waza ari", "score", "waza-ari"),),
    )
    assert alone.side is None


# IJF Sport and Organisation Rules since 2025: yuko, waza-ari and ippon are the scores there are; from memory.
def test_scores_that_are_listed_are_not_given() -> None:
    awards = hear("There are yuko, waza-ari and ippon. Waza-ari for Tarik.", kind="score", points=False)
    assert [(claim.score_class, claim.side) for claim in awards] == [("waza-ari", "blue")]
    twice = hear("Waza-ari, and again! Waza-ari, ippon!", kind="score", points=False)
    assert [claim.score_class for claim in twice] == ["waza-ari", "ippon"]


def test_a_score_some_seconds_away_is_not_given() -> None:
    (claim,) = hear("Three more seconds and that's a waza-ari.", kind="score", points=False)
    assert claim.status == "supposed"


# Penalties that both have are not those of whoever is named last.
@pytest.mark.parametrize(
    ("said", "scores", "shidos"),
    [
        ("A waza-ari to nothing, shidos one apiece.", (1, 0), (1, 1)),
        ("A waza-ari to nothing, shidos two to one.", (1, 0), (2, 1)),
        ("A waza-ari to a yuko, one shido each.", (1, 0), (1, 1)),
    ],
)
def test_scores_of_each_and_penalties_of_both(
    said: str, scores: tuple[int, int], shidos: tuple[int, int]
) -> None:
    one, two = hear(said, kind="stated_score", points=False)
    assert tuple(one.tallies[side].waza_ari for side in ("red", "blue")) == scores
    assert {tally.shido for tally in one.tallies.values()} == {None}
    assert tuple(two.tallies[side].shido for side in ("red", "blue")) == shidos
