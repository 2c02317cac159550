"""What the lexicon tells of a concept, and the names it hints to a recogniser."""

import pytest

from hikite.terms import Terms, load_terms
from hikite.terms.hints import hints
from hikite.terms.telling import tell


@pytest.fixture(scope="module")
def terms() -> Terms:
    return load_terms()


# telling and hints
def test_tell_shows_names_families_links_and_caution(terms: Terms) -> None:
    told = tell(terms, "kata-guruma")
    groups = {(group.language, group.script): group for group in told.names}
    assert "肩車" in groups["ja", "kanji"].published
    assert "мельница" in groups["ru", "cyrillic"].published
    assert "windmill" in groups["en", "latin"].common
    assert told.families == ("te-waza", "nage-waza", "throw", "technique")
    assert ("firemans-carry", "same") in [(link.concept, link.link) for link in told.links]
    assert told.caution == ""
    assert tell(terms, "skruchivanie-pyatki").caution
    assert "ippon-seoi-nage" in tell(terms, "seoi-nage").also_means["seoi"]
    with pytest.raises(KeyError):
        tell(terms, "no-such-thing")


@pytest.mark.parametrize(
    ("ruleset", "wanted", "unwanted"),
    [
        ("judo.2025", {"uchi mata", "seoi nage", "waza ari", "shido", "hajime"}, {"gut wrench", "melnitsa"}),
        ("sambo.sport.2020", {"melnitsa", "podkhvat iznutri", "chistaya pobeda"}, {"hajime"}),
        ("uww.fs", {"single leg", "gut wrench", "takedown"}, {"uchi mata", "shido"}),
        # No attack on the legs in Greco-Roman (rule of the sport), so no name for one.
        ("uww.gr", {"suplex", "reverse lift"}, {"single leg", "double leg", "leg lace"}),
    ],
)
def test_hints_suit_the_rule_set(terms: Terms, ruleset: str, wanted: set[str], unwanted: set[str]) -> None:
    given = hints(terms, ruleset, 60)
    assert len(given) == len(set(given)) == 60
    assert wanted <= set(given)
    assert not unwanted & set(given)
    assert hints(terms, ruleset, 5) == given[:5]


def test_hints_of_nothing(terms: Terms) -> None:
    assert hints(terms, "judo.2025", 0) == ()
    assert hints(terms, "chess", 60) == ()
