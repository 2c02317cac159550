"""Spoken numbers against a second library, and what English says that libraries do not know."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from hikite.claims.said.numbers import find_numbers
from hikite.claims.said.wording import load_wording

NUMBERS = load_wording("en").numbers


def read(text: str) -> list[int]:
    words = text.replace("-", " ").split()
    return [number.value for number in find_numbers(words, [True] * len(words), NUMBERS)]


# num2words (LGPL) spells, text2num reads: the two know nothing of each other.
@pytest.mark.parametrize("value", range(1000))
def test_a_cardinal_spelt_by_another_library_is_read_back(value: int) -> None:
    assert read(num2words(value)) == [value]


# Law: numbers said one after the other with a word between are read each by itself.
@given(st.lists(st.integers(0, 999), min_size=1, max_size=4))
def test_numbers_with_a_word_between_do_not_run_together(values: list[int]) -> None:
    assert read(" then ".join(num2words(value) for value in values)) == values


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Two numbers side by side stay two: what they mean is for the clock and the score to say.
        ("seven three", [7, 3]),
        ("two ten", [2, 10]),
        ("one fifty eight", [1, 58]),
        ("nineteen ninety", [19, 90]),
        # Misheard where only a number can stand: the minutes of a clock, one half of a score.
        ("for oh nine left", [4, 9]),
        ("to oh five on the clock", [2, 5]),
        ("for nil", [4, 0]),
        ("for oh so long", []),
        # Words for nothing.
        ("six nil", [6, 0]),
        ("four zip", [4, 0]),
        ("three love", [3, 0]),
        ("two nothing", [2, 0]),
        # Figures, and the ordinals a recogniser makes of them.
        ("6 1", [6, 1]),
        ("9 th to 7 th", [9, 7]),
        # Tens and ones, one in figures and the other a word, are one number; minutes stay apart.
        ("40 eight", [48]),
        ("twenty 6", [26]),
        ("3 50 eight left", [3, 58]),
        ("20 15", [20, 15]),
        ("20 6", [20, 6]),
        # Ordinals it hears in a score; "one second" stays a second.
        ("eight sixth", [8, 6]),
        ("one second", [1]),
        # What it writes for numbers, where only numbers stand.
        ("too nil", [2, 0]),
        ("ate nothing", [8, 0]),
        ("to a piece", [2]),
        ("the hold earned to", [2]),
        ("seven to nothing", [7, 0]),
        ("he ate before the bout", []),
        ("to the edge for more", []),
        # Nouns that are numbers, with their determiner.
        ("a pair", [2]),
        ("another brace", [2]),
        ("a single", [1]),
        ("half a dozen", [6]),
        ("a point", [1]),
        # Without it they are something else.
        ("double underhooks", []),
        ("the point of single combat", [1]),
        ("pair", []),
        # Small words inside a number, and not outside of one.
        ("a hundred and five", [105]),
        ("two and forty", [2, 40]),
        ("and", []),
    ],
)
def test_numbers_as_english_says_them(said: str, expected: list[int]) -> None:
    assert read(said) == expected


# "twenty, one" with a pause is two numbers; "twenty-one" is one.
def test_a_mark_between_words_parts_numbers() -> None:
    words = ["twenty", "one"]
    assert [number.value for number in find_numbers(words, [False, False], NUMBERS)] == [20, 1]
    assert [number.value for number in find_numbers(words, [False, True], NUMBERS)] == [21]
