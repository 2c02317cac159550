"""Names that contend for words, what stands beside them, and how strange the words are."""

from collections.abc import Callable
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.mentions import Matcher
from hikite.mentions.contests import contested
from hikite.mentions.plain import Plain, Talked
from hikite.mentions.slots import KINDS, Contexts, Slots, kind_of
from hikite.mentions.streams import Stream
from hikite.records import Talk
from hikite.sounds import load_ear

Span = tuple[int, int, float]
_spans = st.lists(
    st.tuples(st.integers(0, 7), st.integers(1, 4), st.floats(-4.5, 4.0)).map(
        lambda one: (one[0], one[0] + one[1], one[2])
    ),
    min_size=1,
    max_size=7,
)


def stream(said: str, run: tuple[int, ...] = ()) -> Stream:
    words = tuple(said.split())
    return Stream(words, np.array(run or (0,) * len(words), np.int64), ("",) * len(words))


# As likely as all sets of names without overlap that hold it, among all such sets.
@given(_spans)
def test_every_way_to_take_the_words_is_weighed(spans: list[Span]) -> None:
    spans = sorted(spans, key=lambda one: one[:2])
    whole, having = 0.0, np.zeros(len(spans))
    for size in range(len(spans) + 1):
        for chosen in combinations(range(len(spans)), size):
            ordered = sorted(spans[at][:2] for at in chosen)
            if all(one[1] <= two[0] for one, two in pairwise(ordered)):
                odds = float(np.exp(sum(spans[at][2] for at in chosen)))
                whole += odds
                having[list(chosen)] += odds
    first, stop, scores = (np.array(column) for column in zip(*spans, strict=True))
    assert contested(first, stop, scores) == pytest.approx(having / whole)


CONTEXTS = Contexts(
    before={"the": (1.0, 0.5, -1.0), "goes for the": (2.0, 0.0, -3.0), "^": (0.2, 0.2, 0.2)},
    behind={"is blocked": (1.5, 0.0, 0.0), "~": (-0.5, 0.0, 0.0)},
)


@pytest.mark.parametrize(
    ("said", "run", "place", "before", "behind"),
    [
        # The longest context that is known tells.
        ("he goes for the belt", (), 4, 2.0, 0.0),
        ("out comes the belt", (), 3, 1.0, 0.0),
        ("he wants belt", (), 2, 0.0, 0.0),
        # Words of another stretch tell nothing; its border may.
        ("he goes for the belt", (0, 0, 0, 1, 1), 4, 1.0, 0.0),
        ("he goes for the belt", (0, 0, 0, 0, 1), 4, 0.2, 0.0),
        # Behind, and words that are not listed.
        ("the x is blocked", (), 2, 0.0, 1.5),
        ("the x korvandl", (), 2, 0.0, -0.5),
    ],
)
def test_slots(said: str, run: tuple[int, ...], place: int, before: float, behind: float) -> None:
    left, right = Slots(CONTEXTS, load_ear("en")).look(stream(said, run))
    technique = KINDS.index("technique")
    assert (left[place][technique], right[place][technique]) == (before, behind)


@pytest.mark.parametrize(("kind", "family"), [("hold", "technique"), ("grip", "grip"), ("penalty", "call")])
def test_kinds_that_stand_in_the_same_places(kind: str, family: str) -> None:
    assert KINDS[kind_of(kind)] == family


def test_what_is_often_said_is_no_surprise() -> None:
    plain = Plain(Talked(total=1000, words={"the": 60, "mat": 20}, pairs={"the mat": 15}), load_ear("en"))

    def surprise(said: str, run: tuple[int, ...] = ()) -> float:
        sums = plain.surprises(stream(said, run))
        return float(sums[-1] - sums[-2])

    assert surprise("the mat") < surprise("a mat") < surprise("a garumma")
    assert surprise("the mat", (0, 1)) == pytest.approx(surprise("mat"))


@pytest.mark.parametrize(
    ("said", "concept", "times"),
    [
        # What is strange where a name is due, and short.
        ("red scores e pone and it is over", "ippon", 1),
        ("she goes for the pod hot and he drops", "podkhvat", 1),
        ("the referee calls hajimay", "start", 1),
        # Strange words said over and over are the name each time.
        ("the coach shouts a veef a veef a veef", "obviv", 3),
        # The same sounds where they are what is always said.
        ("she never touched the mat", "stop", 0),
        ("that is the mat and he wipes it", "stop", 0),
    ],
)
def test_places_tell(
    matcher: Matcher, talk: Callable[[str], Talk], said: str, concept: str, times: int
) -> None:
    assert [one.concept for one in matcher.find(talk(said))].count(concept) == times
