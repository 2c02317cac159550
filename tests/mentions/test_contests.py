"""Names that contend for the same words."""

import math
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from hikite.mentions.contests import Heard, settle
from hikite.mentions.covers import Found, Option, Span, beliefs


def counted(spans: list[Span], odds: list[float]) -> list[float]:
    """The same by writing out every way to choose spans without overlap."""
    whole, each = 0.0, [0.0] * len(spans)
    for size in range(len(spans) + 1):
        for chosen in combinations(range(len(spans)), size):
            apart = all(
                spans[one][1] <= spans[two][0] or spans[two][1] <= spans[one][0]
                for one, two in combinations(chosen, 2)
            )
            if apart:
                weight = math.exp(sum(odds[at] for at in chosen))
                whole += weight
                for at in chosen:
                    each[at] += weight
    return [share / whole for share in each]


_SPANS = st.lists(
    st.tuples(st.integers(0, 8), st.integers(1, 4), st.floats(-4, 6)).map(
        lambda one: ((one[0], one[0] + one[1]), one[2])
    ),
    max_size=7,
)


@given(_SPANS)
@settings(max_examples=200, deadline=None)
def test_beliefs_are_the_shares_of_all_ways(drawn: list[tuple[Span, float]]) -> None:
    drawn.sort()
    spans, odds = [span for span, _ in drawn], [one for _, one in drawn]
    for found, wanted in zip(beliefs(spans, odds), counted(spans, odds), strict=True):
        assert math.isclose(found, wanted, rel_tol=1e-9, abs_tol=1e-12)


def heard(first: int, stop: int, concept: str, odds: float, clear: bool = False) -> Heard:
    return Heard(Found(first, stop, 0.0, (Option(concept, 1.0, concept, "sound"),)), odds, 0.0, clear)


def written(first: int, stop: int, concept: str, chance: float) -> Found:
    return Found(first, stop, 1.0, (Option(concept, chance, concept, "exact"),))


def test_what_says_the_same_backs_each_other() -> None:
    alone = settle([], [heard(0, 2, "a b", 0.0)], 0.3, str.__eq__)
    both = settle([], [heard(0, 2, "a b", 0.0), heard(0, 3, "a b", 0.0)], 0.3, str.__eq__)
    assert len(alone) == len(both) == 1
    assert both[0].candidates[0].probability > alone[0].candidates[0].probability


def test_rivals_stay_behind_the_likeliest() -> None:
    found = settle([], [heard(0, 2, "a b", 2.0), heard(0, 2, "c d", 1.5)], 0.3, str.__eq__)
    assert [one.concept for one in found[0].candidates] == ["a b", "c d"]
    assert sum(one.probability for one in found[0].candidates) <= 1


def test_a_piece_gives_way_to_the_longer_name_that_is_clearly_heard() -> None:
    named = [written(0, 1, "a", 0.97)]
    assert settle(named, [heard(0, 3, "a b c", 3.0, clear=True)], 0.3, str.__eq__)[0].stop == 3
    assert settle(named, [heard(0, 3, "a b c", 3.0)], 0.3, str.__eq__)[0].stop == 1


def test_what_is_unlikely_beside_the_rest_is_left_out() -> None:
    found = settle([written(0, 2, "a b", 0.97)], [heard(1, 3, "c", 0.5)], 0.3, str.__eq__)
    assert [one.candidates[0].concept for one in found] == ["a b"]
