"""The lexicon against the official list of judo techniques (source: kodokan.py beside this file)."""

import pytest
from kodokan import GROUNDWORK, GROUPS, THROWS

from hikite.terms import Terms, load_terms


@pytest.fixture(scope="module")
def terms() -> Terms:
    return load_terms()


# the official list (source: tests/terms/kodokan.py)
@pytest.mark.parametrize(("group", "count"), list(zip(GROUPS, (16, 10, 21, 5, 16, 10, 12, 10), strict=True)))
def test_every_official_technique_stands_in_its_group(terms: Terms, group: str, count: int) -> None:
    members = GROUPS[group].split()
    assert len(members) == len(set(members)) == count
    for member in members:
        assert terms.is_a(member, group), member
        assert terms.concepts[member].mark == "published"


# "Gaeshi", turning back, and "sukashi", slipping away, are named for what they answer (the same list).
def test_counters_answer_what_they_are_named_for(terms: Terms) -> None:
    throws = {one for group in THROWS for one in GROUPS[group].split()}
    named = {one: one.rpartition("-")[0] for one in throws if one.endswith(("-gaeshi", "-sukashi"))}
    attacks = {one: {stem, f"{stem}-gari"} & throws for one, stem in named.items()}
    told = {one: set(terms.concepts[one].answers) for one, attack in attacks.items() if attack}
    assert told == {one: attack for one, attack in attacks.items() if attack}
    assert len(told) == 7


def test_the_official_list_has_a_hundred() -> None:
    throws = [one for group in THROWS for one in GROUPS[group].split()]
    ground = [one for group in GROUNDWORK for one in GROUPS[group].split()]
    assert (len(throws), len(ground), len({*throws, *ground})) == (68, 32, 100)


@pytest.mark.parametrize("group", GROUPS)
def test_every_official_technique_is_found_by_romaji_kanji_and_kana(terms: Terms, group: str) -> None:
    for member in GROUPS[group].split():
        assert member in terms.lookup(member), member
        scripts = {name.script for name in terms.names_of(member) if name.language == "ja"}
        assert {"latin", "kanji", "kana"} <= scripts, member
