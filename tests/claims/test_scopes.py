"""Cues with direction and reach, what ends them and what only looks like them.

The scheme is ConText's (Harkema and others 2009); the sentences and names are invented.
"""

import pytest

from hikite.claims import scopes
from hikite.claims.phrases import Found
from hikite.terms.speech import CueScope, load_speech

WORDS = list("abcdefghij")
BOUNDS = {"clause": lambda _: (2, 8), "statement": lambda _: (1, 9), "passage": lambda _: (0, 10)}


@pytest.mark.parametrize(
    ("direction", "reach", "ends", "expected"),
    [
        # Only what follows, only what stands before, or both; never past the clause.
        ("forward", "clause", [], [(6, 8)]),
        ("backward", "clause", [], [(2, 5)]),
        ("both", "clause", [], [(6, 8), (2, 5)]),
        # Farther reaches.
        ("forward", "statement", [], [(6, 9)]),
        ("backward", "passage", [], [(0, 5)]),
        # The nearest terminator on that side ends the reach; one on the other side does nothing.
        ("forward", "passage", [7, 9], [(6, 7)]),
        ("backward", "passage", [1, 3], [(3, 5)]),
        ("forward", "clause", [3], [(6, 8)]),
        ("backward", "clause", [7], [(2, 5)]),
    ],
)
def test_reach(direction: str, reach: str, ends: list[int], expected: list[tuple[int, int]]) -> None:
    scope = CueScope.model_validate({"direction": direction, "reach": reach})
    found = scopes.governed([Found(5, 6, "cue", "f")], {"cue": ends}, {"cue": scope}, BOUNDS)
    assert [(one.first, one.stop) for one in found] == expected


def heard(said: str) -> set[tuple[str, str]]:
    words = said.split()
    found, _ = scopes.load_cues("en").find(words)
    return {(one.name, one.phrase) for one in found}


@pytest.mark.parametrize(
    ("said", "cue"),
    [
        ("she is stuffed by the hips", ("thwart", "stuffed")),
        ("he sprawls on it", ("thwart", "sprawls")),
        ("over she goes and lands flat", ("effect", "over she goes")),
        ("if he gets the belt", ("unreal", "if")),
        ("watch it again slow motion", ("replay", "slow motion")),
    ],
)
def test_cue(said: str, cue: tuple[str, str]) -> None:
    assert cue in heard(said)


@pytest.mark.parametrize(
    ("said", "cue"),
    [
        # "no doubt" denies nothing, "didn't he" asks, "even if" supposes nothing, "tries again" is no replay.
        ("no doubt about the throw", "thwart"),
        ("lovely throw did n't he", "thwart"),
        ("he scores even if it hurts", "unreal"),
        ("he tries again", "replay"),
        ("no more than two for that", "thwart"),
        ("he shakes hands", "thwart"),
    ],
)
def test_pseudo_cue(said: str, cue: str) -> None:
    assert cue not in {name for name, _ in heard(said)}


def test_every_scope_is_of_a_cue() -> None:
    speech = load_speech("en")
    assert set(speech.scopes) <= set(speech.cues)
