"""Numbers said of the score that is not yet, no longer or not at all; two numbers far apart; sums."""

import pytest
from saying import hear

from hikite.records import Tally

Told = tuple[str, tuple[int | None, int | None]]


def stated(said: str) -> list[Told]:
    """How each stated score is meant, and its numbers by side."""
    return [
        (claim.status or "", (_of(claim.tallies, "red"), _of(claim.tallies, "blue")))
        for claim in hear(said, kind="stated_score")
    ]


def _of(tallies: dict[str, Tally], side: str) -> int | None:
    return tallies[side].points if side in tallies else None


# Taken back by the words behind it; a bare "no" does so only before another number.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Seven-seven! No it isn't, I'm asleep.", [("denied", (7, 7))]),
        ("Eight to three. Sorry, my mistake.", [("denied", (8, 3))]),
        ("Is that nine-four? No, nine-five.", [("denied", (9, 4)), ("stated", (9, 5))]),
        ("Three-one, no, four-one.", [("denied", (3, 1)), ("stated", (4, 1))]),
        ("Six-two. Forgive me, six-three.", [("denied", (6, 2)), ("stated", (6, 3))]),
        # Without marks it takes two words.
        ("so it is six two no sorry six three", [("denied", (6, 2)), ("stated", (6, 3))]),
        ("Four-one. No, he won't get that arm.", [("stated", (4, 1))]),
    ],
)
def test_a_score_taken_back(said: str, expected: list[Told]) -> None:
    assert stated(said) == expected


# One of two scores, and a score with what would come of it, are supposed.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            "At three-three or six-six it's the last one who wins.",
            [("supposed", (3, 3)), ("supposed", (6, 6))],
        ),
        ("Seven-seven would be enough for her.", [("supposed", (7, 7))]),
        ("Four-four, he'd like a rest.", [("stated", (4, 4))]),
    ],
)
def test_scores_that_might_be(said: str, expected: list[Told]) -> None:
    assert stated(said) == expected


# Two numbers alone, however joined; a count goes on, parts are of a sum, awards are no score.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Five and two.", [("stated", (5, 2))]),
        ("Eight minus three, says the boy at the table.", [("stated", (8, 3))]),
        ("Two and three it stays.", [("stated", (2, 3))]),
        ("Three, four. Half a minute more.", [("stated", (3, 4))]),
        ("Three, four. Five.", []),
        ("Seven. Two and five.", [("stated", (7, None))]),
        ("Two for red, one for the trip.", []),
        # Twice nothing is a score only in one breath.
        ("so they wrestle nothing nothing he pushes and he walks out again", []),
        ("nothing nothing on the board", [("stated", (0, 0))]),
        # A score with its "to" ends there.
        ("so how many is it eight to six five and four", [("stated", (8, 6))]),
    ],
)
def test_two_numbers_alone(said: str, expected: list[Told]) -> None:
    assert stated(said) == expected


# Each number beside whoever has it, one of whom nobody knows by that name.
@pytest.mark.parametrize(
    ("said", "expected", "ordered"),
    [
        ("Six to Orsan, two to the plumber.", (6, 2), True),
        ("Seven for the Dunhollow, nothing for us.", (0, 7), True),
        ("Nothing for our lad, four for Tarik.", (0, 4), True),
        ("Three for Dunhollow, nil for us.", (0, 3), True),
        ("Seven for the tall one, two for the short one.", (7, 2), False),
    ],
)
def test_two_numbers_apart(said: str, expected: tuple[int, int], ordered: bool) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert (_of(claim.tallies, "red"), _of(claim.tallies, "blue"), claim.ordered) == (*expected, ordered)


# What the parts come to is what one side now has; a number said of something else is not.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Four and six is ten.", [("recalled", (6, None)), ("stated", (10, None))]),
        ("Two and four makes six.", [("stated", (6, None))]),
        ("Two and four is seven.", []),
        ("Tarik, eleven.", [("stated", (None, 11))]),
        ("Nine seconds left. Nine!", []),
        # Without marks.
        ("so it is one and four five for our lad", [("stated", (5, None))]),
    ],
)
def test_what_one_side_has(said: str, expected: list[Told]) -> None:
    assert stated(said) == expected


def test_what_lies_between_them_is_a_lead() -> None:
    leads = [
        claim.margin for claim in hear("Five between them. Ten between them ends it.", kind="stated_score")
    ]
    assert leads == [5]


# Whoever was not named has what goes to the other; what others make of it, and old rules, give nothing.
@pytest.mark.parametrize(
    ("said", "points", "side", "status"),
    [
        ("Warning to blue, and one for the other man.", 1, "red", "given"),
        ("Red steps out, a point to his opponent.", 1, "blue", "given"),
        ("They reckon it was four.", 4, None, "supposed"),
        ("He works or Tarik gets a point.", 1, "blue", "supposed"),
        ("Before that it was only two.", 2, None, "recalled"),
        ("And losing it costs you one.", 1, None, "given"),
    ],
)
def test_whose_and_whether(said: str, points: int, side: str | None, status: str) -> None:
    (claim,) = hear(said, kind="score")
    assert (claim.points, claim.side, claim.status) == (points, side, status)
