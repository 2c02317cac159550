"""How what is named is meant. All names and places are invented; the weights are those shipped."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearings import claims, first
from hikite.claims.judges import load_judges


@pytest.mark.parametrize(
    ("said", "status"),
    [
        # What became of it, read behind the name.
        ("Veldrik with the shoulder throw, over he goes, flat on his back! Four points to red.", "completed"),
        ("Double leg from Ambrose, and down goes Veldrik! Two for blue.", "completed"),
        ("Veldrik tries the shoulder throw, blocked.", "failed"),
        ("Veldrik shoots the double leg, and Ambrose sprawls. Nothing there.", "failed"),
        ("Veldrik goes for the inner thigh throw. Ambrose hops out of it. No score.", "failed"),
        # A wish or a supposition reaches what follows it.
        ("If I were Veldrik I would look for the shoulder throw here.", "supposed"),
    ],
)
def test_technique(said: str, status: str) -> None:
    assert first("technique", said).status == status


def test_told_again_after_the_end() -> None:
    heard = claims(
        "Shoulder throw from Veldrik, flat on his back, four points to red!",
        "That's the end, red wins.",
        "So, looking back, it was the shoulder throw that won it.",
    )
    assert [one.status for one in heard if one.kind == "technique"] == ["completed", "recalled"]


@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("Veldrik takes the belt.", "taken"),
        ("Ambrose has the belt now, over the back.", "taken"),
        ("Veldrik is hunting for the belt.", "sought"),
        ("They circle, hand fighting, hand fighting.", "sought"),
        ("Ambrose strips the sleeve.", "broken"),
        ("Both men right-handed.", "described"),
    ],
)
def test_grip(said: str, status: str) -> None:
    assert first("grip", said).status == status


_WORDS = (
    "he",
    "Veldrik",
    "Ambrose",
    "goes for",
    "the shoulder throw",
    "belt",
    "no",
    "if",
    "four points",
    "again",
)


@given(st.lists(st.sampled_from(_WORDS), min_size=1, max_size=25).map(" ".join))
def test_probabilities_sum_to_one(said: str) -> None:
    for one in claims(said):
        assert sum(one.statuses.values()) == pytest.approx(1.0)
        assert one.sides == {} or sum(one.sides.values()) == pytest.approx(1.0)


_DENYING = ("before:deny", "after:fail", "then=thwart", "here:thwart", "near:thwart", "in:fail", "later:fail")
_KINDS = (("technique", "completed"), ("score", "given"))


@pytest.mark.parametrize(("kind", "status"), _KINDS)
@pytest.mark.parametrize("cue", _DENYING)
@given(data=st.data())
def test_a_denying_cue_never_raises(kind: str, status: str, cue: str, data: st.DataObject) -> None:
    """Whatever else is heard, P(completed) and P(given) do not grow when a denying cue is added."""
    judge = load_judges().status[kind]
    known = sorted({clue for weights in judge.weights.values() for clue in weights} - set(_DENYING))
    around = data.draw(st.lists(st.sampled_from(known), max_size=12, unique=True))
    without = dict.fromkeys(around, 1.0)
    assert judge.weigh(without | {cue: 1.0})[status] <= judge.weigh(without)[status] + 1e-9
