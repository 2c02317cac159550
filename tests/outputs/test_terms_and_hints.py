"""What can be asked of the lexicon, in any spelling or garble; and why an entry is as it is."""

import pytest
from handmade import handmade

from hikite.outputs import record_of
from hikite.outputs.derivations import Node, derive, row_words
from hikite.outputs.hints import hints
from hikite.outputs.lookups import look_up

# (asked, what it names first, how it was met)
ASKED = [
    ("uchi-mata", "uchi-mata", "as written"),
    ("Uchi Mata", "uchi-mata", "as written"),
    ("内股", "uchi-mata", "as written"),
    ("подхват изнутри", "uchi-mata", "as written"),
    ("ooch ee matter", "uchi-mata", "by sound"),
    ("grip:belt", "grip:belt", "as written"),
]


@pytest.mark.parametrize(("asked", "concept", "how"), ASKED)
def test_any_spelling_finds_the_concept(asked, concept, how, lexicon):
    first = look_up(asked, lexicon)[0]
    assert (first.concept.id, first.how) == (concept, how)


def test_a_declared_ambiguity_shows_both(lexicon):
    assert {one.concept.id for one in look_up("uchi gari", lexicon)} == {"o-uchi-gari", "ko-uchi-gari"}


def test_big_and_small_are_confused(lexicon):
    found = look_up("o-uchi-gari", lexicon)[0]
    assert "ko-uchi-gari" in {other.concept for other in found.alike}
    assert all(not lexicon.terms.same(other.concept, "o-uchi-gari") for other in found.alike)
    assert "oh-oo-chee-gah-ree" in found.heard


@pytest.mark.parametrize("asked", ["", "the weather is nice", "-->", "<b>", "!", " ", "?!", "-", "--- '"])
def test_nothing_known(asked, lexicon):
    assert look_up(asked, lexicon) == ()


# A recogniser's list: as long as asked, without doubles, the trade of the rule set.
@pytest.mark.parametrize(
    ("rules", "wanted", "alien"),
    [("judo.2025", "uchi mata", "double leg"), ("uww.fs", "double leg", "osaekomi")],
)
def test_hints(rules, wanted, alien, lexicon):
    found = hints(lexicon.terms, rules, 60)
    assert len(found) == len(set(found)) == 60
    assert wanted in found
    assert alien not in found
    assert hints(lexicon.terms, rules, 5) == found[:5]
    assert all(name.isascii() for name in found)


def lines(node: Node) -> list[str]:
    return [node.says, *(line for one in node.because for line in lines(one))]


def test_derivation_goes_from_the_words_to_the_number(lexicon):
    recording = handmade()
    record = record_of(recording, lexicon)
    score = next(entry for entry in record.bouts[0].entries if entry.counts)
    tree = derive(recording, record, lexicon, score.id)
    assert tree is not None
    told = "\n".join(lines(tree))
    for part in (
        "2 points",
        "“two”",
        "“ooch ee matter”",
        "cue 0",
        "SM-04",
        "award called",
        "red 90 %",
        "2–0",
    ):
        assert part in told
    assert derive(recording, record, lexicon, "b9.9") is None


def test_every_entry_can_be_explained(recording, record, lexicon):
    for entry in (entry for bout in record.bouts for entry in bout.entries):
        tree = derive(recording, record, lexicon, entry.id)
        assert tree is not None
        told = "\n".join(lines(tree))
        assert all(quote.words in told for quote in entry.quotes)
        assert entry.row is None or entry.row in told


def test_every_row_of_every_rule_set_has_words(lexicon):
    for rules in lexicon.rulesets.rulesets.values():
        for row in rules.rows():
            assert row_words(rules, row.id) not in ("", row.id)
