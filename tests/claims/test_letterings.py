import pytest

from hikite.claims.letterings import lettered

NAMES = (("zholmark", "red"), ("orsan", "red"), ("tveq", "blue"), ("kolmeti", "blue"))


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # A recogniser spells what it knows no word for, and hears words in some of the letters.
        ("now t v e q takes the belt", [("t v e q", "blue")]),
        ("z h o l m a r k has two", [("z h o l m a r k", "red")]),
        ("z ho l m a r k has two", [("z ho l m a r k", "red")]),
        # Letters that are no name, short words that are no letters.
        ("i a m not so i go on", []),
        ("u w w rules", []),
        ("he is on to it and he has it", []),
    ],
)
def test_names_written_letter_by_letter(said: str, expected: list[tuple[str, str]]) -> None:
    words = said.split()
    found = [(" ".join(words[first:stop]), side) for first, stop, side in lettered(words, NAMES, ())]
    assert found == expected


def test_nobody_named_is_spelt() -> None:
    assert not list(lettered(["t", "v", "e", "q", "takes", "the", "belt"], (), ()))
