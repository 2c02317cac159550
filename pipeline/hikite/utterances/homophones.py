"""What a recogniser wrote for another word that sounds the same: "that is to", "the need"."""

import json
from collections.abc import Iterator, Sequence
from functools import cache

from hikite.terms.places import lexicon_root
from hikite.terms.speech import Beside, load_speech
from hikite.utterances.kinds import Kinds

# The words around one that may be another, by place.
_AROUND = (-2, -1, 1, 2)
_EDGE, _NUMBER = "^", "number"
# A word misheard one time in six has to be meant so much more often than written there: its log odds.
_SELDOM = 1.8


def meant(words: Sequence[str], language: str = "en") -> list[str]:
    """The words with those replaced that are rather another that sounds the same, by those around them."""
    speech, weights, kinds = load_speech(language), _weights(language), Kinds(language)
    others = speech.homophones
    likely = [
        others[word] if word in weights and _other(words, at, weights[word], kinds) else word
        for at, word in enumerate(words)
    ]
    return surely_meant(likely, language)


def surely_meant(words: Sequence[str], language: str = "en") -> list[str]:
    """The words with those replaced that cannot stand beside their neighbours, also where there are marks."""
    beside = load_speech(language).beside
    return [_surely(words, at, beside.get(word), word) for at, word in enumerate(words)]


def _surely(words: Sequence[str], at: int, other: Beside | None, word: str) -> str:
    """The word, or the one it was written for, as the words beside it tell: "a point for read"."""
    if other is None:
        return word
    before, behind = words[at - 1] if at else _EDGE, words[at + 1] if at + 1 < len(words) else _EDGE
    surely = before in other.before or behind in other.behind
    rather = len(words) > 1 and other.unless and other.unless.isdisjoint((before, behind))
    return other.word if surely or rather else word


def _other(words: Sequence[str], at: int, weights: dict[str, float], kinds: Kinds) -> bool:
    """Whether the word there is rather the other one; before a number both may stand: "goes for two"."""
    before, behind = words[max(at - 1, 0)], words[min(at + 1, len(words) - 1)]
    if _NUMBER in kinds.of(behind) and _NUMBER not in kinds.of(before):
        return False
    return sum([weights.get(sign, 0.0) for sign in signs_around(words, at, kinds)]) > _SELDOM


@cache
def _weights(language: str) -> dict[str, dict[str, float]]:
    """By word as written, each sign's log odds for the other; none for a language not learnt from."""
    file = lexicon_root() / language / "homophones.json"
    return dict(json.loads(file.read_text("utf-8"))) if file.is_file() else {}


def signs_around(words: Sequence[str], at: int, kinds: Kinds) -> Iterator[str]:
    """What tells which of two words stands at a place: the words around, their kinds, both sides at once."""
    near = {place: words[at + place] if 0 <= at + place < len(words) else _EDGE for place in _AROUND}
    yield "always"
    for place, word in near.items():
        yield f"{place} {word}"
    yield f"{near[-1]} _ {near[1]}"
    before, behind = kinds.of(near[-1]), kinds.of(near[1])
    for place in _AROUND:
        for kind in kinds.of(near[place]):
            yield f"{place} a {kind}"
    for one in before or ("word",):
        for other in behind or ("word",):
            yield f"{one} | {other}"
