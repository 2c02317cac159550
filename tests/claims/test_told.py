"""What is told without a name: kept or not, and how surely. All people are invented."""

import pytest

from hearings import claims


def sureness(said: str, concept: str) -> float:
    """How sure a concept is heard, 0 where it is not."""
    return max((one.confidence for one in claims(said) if one.concept == concept), default=0.0)


# Told in few words among talk of how things are done by anybody it is nothing that happened.
@pytest.mark.parametrize(
    ("happened", "of_anybody", "concept"),
    [
        ("Veldrik hugs a leg.", "You usually hug, Veldrik hugs a leg.", "single-leg"),
        (
            "Veldrik snags that leg of hers on the inside.",
            "It is always Veldrik who snags that leg of hers on the inside.",
            "o-uchi-gari",
        ),
    ],
)
def test_talk_of_anybody_is_less_sure(happened: str, of_anybody: str, concept: str) -> None:
    assert sureness(of_anybody, concept) < sureness(happened, concept)


# More words tell more.
def test_more_words_are_surer() -> None:
    short = sureness("Veldrik hugs a leg.", "single-leg")
    long = sureness("Veldrik hugs a leg and lifts it to his own chest.", "single-leg")
    assert 0 < short < long < 1
