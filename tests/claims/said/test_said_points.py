"""Points in more of the ways they are told: had, led by, given for something, given again, gone again."""

import pytest
from saying import hear


# What each has, beside its name, in one statement or one each; a number of several awards is no total.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Blue's got seven now, red still on three.", (3, 7)),
        ("Red is at nine, blue at four.", (9, 4)),
        ("Four points Tarik, two points Orsan.", (2, 4)),
        ("Orsan has eight points to Tarik's six.", (8, 6)),
        ("Nine versus seven.", (9, 7)),
        ("Blue: 7. Red: 2.", (2, 7)),
        ("Orsan, eight. His opponent, three.", (8, 3)),
        ("Tarik's total is eleven.", (None, 11)),
        ("That leaves red on nine.", (9, None)),
        ("Seven on the blue side.", (None, 7)),
        ("Eight all told.", (8, None)),
    ],
)
def test_what_they_have(said: str, expected: tuple[int | None, int | None]) -> None:
    (claim,) = hear(said, kind="stated_score")
    tallies = claim.tallies
    assert tuple(tallies[side].points if side in tallies else None for side in ("red", "blue")) == expected


def test_two_small_numbers_called_are_no_score() -> None:
    assert hear("Red, two. Blue, one.", kind="stated_score") == []


@pytest.mark.parametrize(
    ("said", "margin"),
    [
        ("A six-point lead.", 6),
        ("Just the one point in it.", 1),
        ("The gap comes down to a single point.", 1),
        ("She's protecting her one point.", 1),
        ("He's sitting on that three-point lead.", 3),
        ("One point down and a minute left.", 1),
        ("She has three more than Orsan.", 3),
        ("He's level now.", 0),
    ],
)
def test_leads(said: str, margin: int) -> None:
    claims = [claim for claim in hear(said) if claim.kind in ("stated_score", "score")]
    assert [(claim.kind, claim.margin) for claim in claims] == [("stated_score", margin)]


# Whose they are tells an award where no mark stands in front; "wait one, Tarik" gives nothing.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("He left the mat without being pushed one to blue.", [("blue", 1)]),
        ("Down he sits two red.", [("red", 2)]),
        ("Now wait one, Tarik has the arm.", []),
        ("He turns with the left one and goes.", []),
        ("That's the one he throws off.", []),
        ("There's a lesson in that for one or two of you.", []),
        ("Red comes now, he has to. Over the back.", []),
        ("Ten, that's two already.", [(None, 2)]),
    ],
)
def test_awards_in_the_flow_of_words(said: str, expected: list[tuple[str, int]]) -> None:
    assert [(claim.side, claim.points) for claim in hear(said, kind="score")] == expected


# For what, whose, and once more.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("The chairman gives it two.", [(2, None, "given")]),
        ("Two on the reversal.", [(2, None, "given")]),
        ("One for stepping out.", [(1, None, "given")]),
        ("And that lift, four from the feet to danger.", [(4, None, "given")]),
        ("Just a one for that.", [(1, None, "given")]),
        ("Blue's point.", [(1, "blue", "given")]),
        ("Penalty point to red.", [(1, "red", "given")]),
        ("Red takes one back.", [(1, "red", "given")]),
        ("That's a point against blue.", [(1, "red", "given")]),
        ("They've raised it to four.", [(4, None, "given")]),
        ("Four stands.", [(4, None, "given")]),
        ("Leg lace, two. And again, two.", [(2, None, "given"), (2, None, "given")]),
        ("Two! That's two.", [(2, None, "given")]),
        # Gone again, and not given.
        ("Two points come off.", [(2, None, "denied")]),
        ("They've wiped the four.", [(4, None, "denied")]),
        ("That won't score.", [(0, None, "denied")]),
        ("They don't give it.", [(0, None, "denied")]),
        ("Not enough for points.", [(0, None, "denied")]),
    ],
)
def test_given_and_gone(said: str, expected: list[tuple[int, str | None, str]]) -> None:
    assert [(claim.points, claim.side, claim.status) for claim in hear(said, kind="score")] == expected


def test_a_throw_as_in_the_book_is_no_penalty() -> None:
    assert hear("A hip throw like in the book from his school days.", kind="penalty") == []


# Who is named behind what a point is for gets it: the other one is penalised.
@pytest.mark.parametrize("said", ["A point for passivity to blue.", "One for inactivity goes to Tarik."])
def test_a_point_for_a_penalty(said: str) -> None:
    (claim,) = hear(said, kind="penalty")
    assert claim.side == "red"
