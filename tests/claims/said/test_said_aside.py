"""Everyday words that look like results, cards, calls and scores; results and scores in everyday words."""

import pytest
from saying import hear

from hikite.records import Tally


# What is lost, given up, pulled off or stuck somewhere ends no bout; nor does what the next penalty would.
@pytest.mark.parametrize(
    "said",
    [
        "Blue has lost his belt altogether.",
        "Tarik's lost the sleeve.",
        "She's giving up her feet.",
        "Orsan gave up the underhook there.",
        "Breaking the grip, she's pulled it off with both hands.",
        "Blue's stuck her head under the arm.",
        "A third and he's removed.",
        "Another warning and Orsan is out.",
    ],
)
def test_no_result(said: str) -> None:
    assert hear(said, kind="result") == []


@pytest.mark.parametrize(
    ("said", "concept", "side"),
    [
        ("So it's Tarik who goes through.", "points", "blue"),
        ("It is Orsan who advances.", "points", "red"),
        ("It's Tarik who goes home.", "points", "red"),
        ("He screamed, that counts.", "submission", None),
        ("She yelled, it's the same.", "submission", None),
        ("A shout counts as a tap.", "submission", None),
        ("He has given up.", "submission", None),
        ("Tarik has lost it.", "points", "red"),
    ],
)
def test_results(said: str, concept: str, side: str | None) -> None:
    (claim,) = hear(said, kind="result")
    assert (claim.concept, claim.side, claim.status) == (concept, side, "given")


# The yellow of the mat is no card; what the next one would bring has not come.
def test_cards() -> None:
    assert hear("He's off the yellow, right out.", kind="penalty", points=False) == []
    (claim,) = hear("A third and he's removed.", kind="penalty")
    assert (claim.concept, claim.status) == ("disqualification", "supposed")


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("He's showing the hands. It's red's third.", [("shido", "red")]),
        ("It's red's third attack.", []),
        # Right after a score it counts scores.
        ("Yuko! It's red's second.", []),
    ],
)
def test_a_card_counted_by_whose_it_is(said: str, expected: list[tuple[str, str]]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.concept, claim.side) for claim in claims] == expected


# The recording runs before the bout does, and what a fall needed did not end it.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Right, we're live, good evening.", []),
        ("We are rolling, mat three.", []),
        ("They're off.", ["start"]),
        ("She let go or it's finished.", []),
        ("And there ends the first period.", ["end"]),
    ],
)
def test_calls(said: str, expected: list[str]) -> None:
    assert [claim.concept for claim in hear(said, kind="stoppage")] == expected


# Praise, the body, and a referee who gives without a word.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("That was a proper one.", []),
        ("That's a proper four.", [(4, None)]),
        ("Three points of him on the mat, two knees and a hand.", []),
        ("They've given Tarik something for it.", [(None, "blue")]),
        # How much was given, or what, is told in the next statement.
        ("They've given Tarik something for it. A single.", [(1, None)]),
        ("He's in deep on the leg. A single.", []),
        ("And he's given her one. A warning for blue.", []),
        ("and he's given her one a warning for blue for what", []),
        # Without marks: the throw's name, then what it paid; "four" as it sounds.
        ("round behind go behind two for orsan what a start", [(2, "red")]),
        ("so no no it's the for stay on him", [(4, None)]),
        ("that's the spoken one and now she works", []),
    ],
)
def test_points(said: str, expected: list[tuple[int | None, str | None]]) -> None:
    assert [(claim.points, claim.side) for claim in hear(said, kind="score")] == expected


# Judo scores by pet names, gone again, suffered before, and in general.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("So that's a second little one for Orsan.", [("yuko", "red", "given")]),
        ("My little one starts school.", []),
        ("The ippon's gone.", [("ippon", None, "denied")]),
        ("Ippon gone from the board.", [("ippon", None, "denied")]),
        ("She was hit by a waza-ari.", [("waza-ari", None, "recalled")]),
        ("Ten yukos don't make a waza-ari.", []),
        ("Nine, ten, waza-ari!", [("waza-ari", None, "given")]),
    ],
)
def test_classes(said: str, expected: list[tuple[str, str | None, str]]) -> None:
    found = [
        (claim.score_class, claim.side, claim.status) for claim in hear(said, kind="score", points=False)
    ]
    assert found == expected


# Who leads, without a number, in a sport of points; how it stands, in more words.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("For the first time tonight Tarik's in front.", "blue"),
        ("Orsan leads.", "red"),
        ("Tarik takes the lead.", "blue"),
        ("Orsan leads with the left hand.", None),
        ("Tarik in front of the table.", None),
    ],
)
def test_a_leader(said: str, side: str | None) -> None:
    claims = hear(said, kind="stated_score")
    assert [(claim.side, claim.margin, claim.tallies) for claim in claims] == (
        [(side, None, {})] if side else []
    )


@pytest.mark.parametrize(
    "said", ["Everything equal.", "All equal again.", "Which is level, and yet it isn't."]
)
def test_level(said: str) -> None:
    assert [claim.margin for claim in hear(said, kind="stated_score")] == [0]


def test_a_card_that_is_still_there() -> None:
    (claim,) = hear("Shido to red still.", points=False)
    assert (claim.kind, claim.tallies) == ("stated_score", {"red": Tally(shido=1)})


# Marks beside the numbers: whose each is, what is counted, and how it stands at so much.
@pytest.mark.parametrize(
    ("said", "points", "expected"),
    [
        ("Blue, therefore, five, red three.", True, (3, 5)),
        ("Six, to Tarik's two.", True, (6, 2)),
        ("Six to Orsan's two.", True, (2, 6)),
        ("Six for Tarik, two for the other one.", True, (2, 6)),
        ("At six apiece the man with the four wins.", True, (6, 6)),
        ("Two and two now, in shidos.", False, (2, 2)),
    ],
)
def test_numbers_beside_marks(said: str, points: bool, expected: tuple[int, int]) -> None:
    (claim,) = hear(said, kind="stated_score", points=points)
    found = [claim.tallies[side] for side in ("red", "blue")]
    assert tuple(one.points if points else one.shido for one in found) == expected


# One judge of several does not decide.
@pytest.mark.parametrize(
    ("said", "status"),
    [("One side judge shows four.", "supposed"), ("The judge shows four.", "given")],
)
def test_one_judge(said: str, status: str) -> None:
    assert [claim.status for claim in hear(said, kind="score")] == [status]


# "Four all" is a score stated, from which one written as a figure may go on.
def test_a_figure_goes_on_from_a_level_score() -> None:
    _, claim = hear("Four all. Off her back, 84, and Tarik works.", kind="stated_score")
    assert [claim.tallies[side].points for side in ("red", "blue")] == [8, 4]
