"""Numbers said in a row without marks, parted into what is told (common practice, no source)."""

import pytest
from saying import hear


@pytest.mark.parametrize(
    ("said", "told"),
    [
        # An award and the score after it.
        (
            "so that 's two two points three nil to red now",
            [("score", 2), ("score", 2), ("stated_score", (3, 0))],
        ),
        ("he gets two two nil they go again", [("score", 2), ("stated_score", (2, 0))]),
        ("that 's four four all and on they go", [("score", 4), ("stated_score", (4, 4))]),
        # An award said twice, with whose it is.
        ("it 's four four for blue so six two", [("score", 4), ("stated_score", (6, 2))]),
        # A score and the clock.
        ("one nothing four and a quarter minutes on the clock", [("stated_score", (1, 0)), ("clock", 255)]),
        ("three nil two fifty left and they wait", [("stated_score", (3, 0)), ("clock", 170)]),
        # An award and the clock.
        ("two more fifteen seconds left", [("score", 2), ("clock", 15)]),
        # A score said twice.
        ("three two three two and on they go", [("stated_score", (3, 2)), ("stated_score", (3, 2))]),
        ("so it's the one two one", [("score", 1), ("stated_score", (2, 1))]),
        ("they stand him up plus two five four", [("score", 2), ("stated_score", (5, 4))]),
        # A clock down to its end; not where the last counts something.
        ("she circles off it three two one horn", [("clock", 3), ("clock", 2), ("clock", 1)]),
        ("three two one minute left", [("stated_score", (3, 2)), ("clock", 60)]),
        ("it is three two one for blue", [("score", 3), ("stated_score", (1, 2))]),
        # A score in one figure goes on from one stated before; a weight does not, nor a clock.
        (
            "it is six three over he goes 83 five clear",
            [("stated_score", (6, 3)), ("stated_score", (8, 3)), ("lead", 5)],
        ),
        ("it is six three in the 83 kilos", [("stated_score", (6, 3))]),
        ("it is six three then and 45 to go", [("stated_score", (6, 3)), ("clock", 45)]),
        # A dash holds a score together.
        ("four 3-0 and on they go", [("score", 4), ("stated_score", (3, 0))]),
    ],
)
def test_numbers_in_a_row(said: str, told: list[tuple[str, object]]) -> None:
    found = []
    for claim in hear(said):
        if claim.kind == "score":
            found.append((claim.kind, claim.points))
        elif claim.kind == "clock":
            found.append((claim.kind, claim.seconds))
        elif claim.kind == "stated_score" and claim.margin is not None:
            found.append(("lead", claim.margin))
        elif claim.kind == "stated_score":
            red, blue = (claim.tallies[side].points for side in ("red", "blue"))
            found.append((claim.kind, (red, blue)))
    assert found == told


# What stands by itself behind a halt is not supposed with what was said before it; what words lead to is.
@pytest.mark.parametrize(
    ("said", "kind", "status"),
    [
        ("he would get nothing for that okay one minute ten on the clock", "clock", "stated"),
        (
            "if the girl had fallen with her it is only one two for red nothing for blue",
            "stated_score",
            "stated",
        ),
        ("he needs one more well one makes it eleven three", "stated_score", "supposed"),
        ("if it stays six four he goes through", "stated_score", "supposed"),
    ],
)
def test_what_stands_behind_a_halt(said: str, kind: str, status: str) -> None:
    assert [claim.status for claim in hear(said, kind=kind)] == [status]
