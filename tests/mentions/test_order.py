"""What was read before changes nothing: of names that sound alike the lexicon's order alone decides."""

from collections.abc import Callable

import numpy as np
import pytest

from hikite.mentions import Matcher, vocabularies
from hikite.mentions.hearing import Sounded
from hikite.records import Talk
from hikite.sounds import ears


# Words are numbered as they are met and windows come in the order of those numbers, so any order may be.
def test_of_one_concept_the_name_best_attested_leads(matcher: Matcher) -> None:
    concepts = [
        {matcher.spoken[number].concept for number in numbers} for numbers in matcher.heard.names[:400]
    ]
    pairs = [(one, two) for two in range(400) for one in range(two) if concepts[one] == concepts[two]]
    assert pairs
    window, distance = np.zeros(2, np.int64), np.full(2, 0.1, np.float32)
    for one, two in pairs[:50]:
        for entries in ([one, two], [two, one]):
            found = matcher._gatherer._by_concept(Sounded(window, window + 1, np.array(entries), distance))
            assert one in found[3].tolist()
            assert two not in found[3].tolist()


# Ten thousand recordings hold any number of misspelt words: what is remembered of them has a bound.
def test_words_met_are_forgotten_when_they_are_too_many(
    matcher: Matcher, talk: Callable[[str], Talk], monkeypatch: pytest.MonkeyPatch
) -> None:
    said = talk("he snaps him down oochie matta an uchimat into juji gatame")
    before = matcher.find(said)
    assert before
    monkeypatch.setattr(vocabularies, "_MOST", 20)
    monkeypatch.setattr(ears, "_MOST", 20)
    for number in range(8):
        spelt = " ".join("bcdfghklm"[number] + letter + "orple" for letter in "aeiou" * 2)
        matcher.find(talk(spelt))
        assert len(matcher.heard.vocabulary.words) <= 20 + 5
        assert len(matcher.heard.ear._levels) <= 20 + 5
    assert matcher.find(said) == before
