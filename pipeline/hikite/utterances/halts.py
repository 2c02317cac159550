"""Where talk without punctuation rather halts: marks a writer would have set, guessed from the words."""

import json
from collections.abc import Iterator, Sequence
from functools import cache

from hikite.terms.places import lexicon_root
from hikite.utterances.kinds import Kinds

# The places around a border, from two words before it to two behind, and the two right beside it.
_PLACES = (-2, -1, 0, 1)
_BESIDE = (-1, 0)
_EDGE = "^"


def halts(words: Sequence[str], language: str = "en") -> list[float]:
    """How much speaks for a mark between each word and the one before it, in log odds; 0 before the first."""
    weights = _weights(language)
    kinds = Kinds(language)
    return [
        sum([weights.get(sign, 0.0) for sign in signs(words, at, kinds)]) if at else 0.0
        for at in range(len(words))
    ]


@cache
def _weights(language: str) -> dict[str, float]:
    """Each sign's log odds; none for a language whose talk was not learnt from."""
    file = lexicon_root() / language / "halts.json"
    return dict(json.loads(file.read_text("utf-8"))) if file.is_file() else {}


def signs(words: Sequence[str], at: int, kinds: Kinds) -> Iterator[str]:
    """What tells of a mark before a word: the words around it, their kinds, and the kinds that meet there."""
    yield "always"
    for place in _PLACES:
        index = at + place
        yield f"{place} {words[index] if 0 <= index < len(words) else _EDGE}"
    before, behind = (kinds.of(words[at + place]) for place in _BESIDE)
    for kind in before:
        yield f"-1 a {kind}"
    for kind in behind:
        yield f"0 a {kind}"
    for one in before or ("word",):
        for other in behind or ("word",):
            yield f"{one} | {other}"
