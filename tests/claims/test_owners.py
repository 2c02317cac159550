"""Names heard as other words where somebody must be named, and plain talk there. All invented."""

import pytest

from hikite.claims.owners import owners
from hikite.terms.speech import load_speech
from talks import talk

NAMES = (("velmarkov", "red"), ("ostarin", "red"), ("lindegard", "blue"), ("jory", "blue"))


def met(said: str, taken: frozenset[int] = frozenset()) -> list[tuple[str, str]]:
    heard = talk(said)
    found = owners(heard, NAMES, taken, load_speech("en"), "en")
    return [(heard.words(first, stop), side) for first, stop, side in found]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Farther from the name than would do elsewhere: behind a score, and behind "two to".
        ("so it is six four vault mark off", [("vault mark off", "red")]),
        ("and two for linda yard", [("linda yard", "blue")]),
        ("seven to three oyster in now", [("oyster in", "red")]),
        # The same words elsewhere name nobody.
        ("he turns with linda yard behind", []),
        # What is no score; what was said before the mark.
        ("two to go", []),
        ("it is thirty eight linda yard", []),
        ("six four. Vault mark off.", []),
        # Plain talk at such a place.
        ("two for the hold and the clock runs", []),
        ("six four and they circle again", []),
    ],
)
def test_a_name_is_met_where_one_must_be(said: str, expected: list[tuple[str, str]]) -> None:
    assert met(said) == expected


def test_words_that_are_taken_are_no_name() -> None:
    assert met("and two for linda yard", frozenset({3})) == []
