"""What the words beside a number, a penalty or a name make of it; common practice, no source."""

import pytest
from saying import hear

from hikite.records import Tally

Told = tuple[str, int | None, str | None]


def awards(*said: str) -> list[Told]:
    """How each award is meant, what it gives and to whom."""
    return [(claim.status or "", claim.points, claim.side) for claim in hear(*said, kind="score")]


# What the points are for makes them an award; points of the body on the mat are none.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Two for control.", [("given", 2, None)]),
        ("It stands, and it costs them one for asking.", [("given", 1, None)]),
        ("One for the lost challenge.", [("given", 1, None)]),
        ("Down to the mat, three points touching, two for Orsan.", [("given", 2, "red")]),
        ("And that is three points of contact.", []),
    ],
)
def test_what_points_are_for(said: str, expected: list[Told]) -> None:
    assert awards(said) == expected


# "A double" is two, unless what it doubles has a name.
@pytest.mark.parametrize(
    ("said", "named", "given"),
    [
        ("That is a double for Orsan.", (), [2]),
        ("Orsan has a double sleeve grip.", (("double sleeve grip", "grip", "grip:double-sleeve"),), []),
    ],
)
def test_a_noun_of_number(said: str, named: tuple[tuple[str, str, str], ...], given: list[int]) -> None:
    assert [claim.points for claim in hear(said, kind="score", mentions=named)] == given


# An award taken away, or given to the other after all; with "and" between two are two.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Five goes away, and so does my good mood.", [("denied", 5, None)]),
        ("The four is gone.", [("denied", 4, None)]),
        ("Four to red! No! Four to blue!", [("denied", 4, "red"), ("given", 4, "blue")]),
        ("Four to red! No doubt about that.", [("given", 4, "red")]),
        ("Two, and two.", [("given", 2, None), ("given", 2, None)]),
        ("Two, yes, two.", [("given", 2, None)]),
    ],
)
def test_awards_taken_away(said: str, expected: list[Told]) -> None:
    assert awards(said) == expected


# Who leads or trails with which score, without a name.
@pytest.mark.parametrize(
    ("said", "numbers", "who"),
    [
        ("He's seven-four in front!", [7, 4], ("ahead",)),
        ("and she is six to two ahead", [6, 2], ("ahead",)),
        ("He's five-two behind, poor lad.", [5, 2], ("behind",)),
    ],
)
def test_scores_with_who_leads(said: str, numbers: list[int], who: tuple[str, ...]) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert ([tally.points for tally in claim.tallies.values()], claim.attributes) == (numbers, who)


# Each of them with what he has, one with nothing.
@pytest.mark.parametrize(
    ("said", "red", "blue"),
    [
        (
            "So red with a waza-ari and a shido, and blue with nothing of either sort.",
            Tally(waza_ari=1, yuko=0, shido=1),
            Tally(waza_ari=0, yuko=0, shido=0),
        ),
        ("Blue has a yuko and red has nothing.", Tally(waza_ari=0, yuko=0), Tally(waza_ari=0, yuko=1)),
    ],
)
def test_one_has_nothing(said: str, red: Tally, blue: Tally) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == {"red": red, "blue": blue}


# Shown to both without a name; what a third would be is not given.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("He shows it to both of them.", [("shido", "given", "red"), ("shido", "given", "blue")]),
        ("A third for either, and it's hansoku-make.", [("hansoku-make", "supposed", None)]),
    ],
)
def test_penalties_of_both(said: str, expected: list[tuple[str, str, str | None]]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.concept, claim.status, claim.side) for claim in claims] == expected


# Nobody wins by going somewhere, tapping a head or having had enough of waiting.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Orsan goes to the floor with him.", []),
        ("Orsan goes to the sleeve first.", []),
        ("Orsan goes through to the final.", ["points"]),
        ("She's tapped the head one way and gone the other.", []),
        ("He's tapped!", ["submission"]),
        ("The referee's had enough.", []),
        ("and then we all go home on a technicality", []),
    ],
)
def test_no_results(said: str, expected: list[str]) -> None:
    assert [claim.concept for claim in hear(said, kind="result")] == expected


# Two numbers that a recogniser wrote as one; weights, clocks and holds are no scores.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("It's 74 to red.", [7, 4]),
        ("he's 74 in front", [7, 4]),
        ("It's the women's 63 kilos.", None),
        ("Twelve. 20.", None),
        ("The clock is stopped at 41.", None),
    ],
)
def test_two_numbers_written_as_one(said: str, expected: list[int] | None) -> None:
    scores = [claim for claim in hear(said, kind="stated_score") if len(claim.tallies) > 1]
    assert [[tally.points for tally in one.tallies.values()] for one in scores] == (
        [expected] if expected else []
    )


# Steps counted aloud are no points; cards that go up are; what a fall would have cost is supposed.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("One, two, one, two, like a waltz.", []),
        ("Fours going up! Look at that.", [("given", 4, None)]),
        ("With a fall it was four, without it is the lot.", [("supposed", 4, None)]),
        ("With a fall it's four to red.", [("given", 4, "red")]),
    ],
)
def test_what_is_no_award_or_none_yet(said: str, expected: list[Told]) -> None:
    assert awards(said) == expected


# The yellow may be the edge of the mat; which one it is and that it costs tells of one more.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Three steps back, out over the edge of the yellow.", []),
        ("He's off the yellow now.", []),
        ("That's the second, and the second has a price on it.", [("warning", "given")]),
        ("That's the second period.", []),
    ],
)
def test_edges_and_prices(said: str, expected: list[tuple[str, str]]) -> None:
    assert [(claim.concept, claim.status) for claim in hear(said, kind="penalty")] == expected


# Right behind an action the same award said twice is no score, but with a hyphen it is; pence are none.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("takedown two two what a start", 0),
        ("it is two two", 1),
        ("takedown, two-two", 1),
        ("and the tea was 7 02", 0),
    ],
)
def test_pairs_that_are_no_score(said: str, expected: int) -> None:
    acts = (("takedown", "technique", "takedown"),) if "takedown" in said else ()
    assert len(hear(said, kind="stated_score", mentions=acts)) == expected
