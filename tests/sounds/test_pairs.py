"""Words beside words: what plain writing often holds surprises less. Counts: Google Books Ngram data."""

import numpy as np
import pytest

from hikite.sounds import load_ear
from hikite.sounds.pairs import load_pairs


def surprise(words: str) -> list[float]:
    ear, pairs = load_ear("en"), load_pairs("en")
    assert pairs is not None
    several = words.split()
    numbers = np.array([ear.number(word) for word in several])
    found = pairs.surprise(numbers, np.array([ear.level(word) for word in several]))
    return [float(one) for one in found]


@pytest.mark.parametrize(
    ("plain", "odd"),
    [
        # The same last word behind one that it often follows, and behind one that it does not.
        ("new york", "oak york"),
        ("in the", "she the"),
        ("matter of", "cherry of"),
    ],
)
def test_a_word_surprises_less_behind_its_usual_neighbour(plain: str, odd: str) -> None:
    assert surprise(plain)[-1] < surprise(odd)[-1]


def test_the_first_word_stands_alone_and_nothing_is_below_zero() -> None:
    for words in ("the", "of the", "zzyx", "he goes for the zzyx of"):
        found = surprise(words)
        assert len(found) == len(words.split())
        assert min(found) >= 0
        assert found[0] == surprise(words.split()[0])[0]


def test_a_language_without_a_list_has_no_pairs() -> None:
    assert load_pairs("ja") is None
