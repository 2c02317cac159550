"""The marked sentences of the lexicon: what is marked is found, and nothing else is."""

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from hikite.mentions import Matcher
from hikite.records import Talk
from hikite.terms import Terms

sys.path.insert(0, str(Path(__file__).parents[1]))
from examples import LEXICON, Example, languages, read_examples

EXAMPLES = [example for language in languages() for example in read_examples(language)]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example.language}:{example.line}")
def test_example(matcher: Matcher, terms: Terms, talk: Callable[[str], Talk], example: Example) -> None:
    said = talk(example.text)
    # Sentences of a language that the matcher has no ear for are read as written only.
    ear = (LEXICON / example.language / "confusions.toml").exists()
    found = [
        (said.tokens[mention.first].start, said.tokens[mention.stop - 1].stop, mention.concept)
        for mention in matcher.find(said)
        if ear or mention.candidates[0].how != "sound"
    ]
    wanted = [(mark.start, mark.stop, mark.concept) for mark in example.marks]
    assert len(found) == len(wanted), found
    for one, two in zip(found, wanted, strict=True):
        assert terms.same(one[2], two[2])
        # The words may take in an article or a preposition beside the mark, but not another name's.
        assert one[0] < two[1]
        assert two[0] < one[1]
