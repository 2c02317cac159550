"""How little plain talk of the trade leads one to expect each word behind the one before."""

import math
import tomllib
from functools import cache

import numpy as np
from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.mentions.evidence import Vector
from hikite.mentions.streams import Stream
from hikite.sounds import Ear, load_ear
from hikite.terms.places import lexicon_root

# Words of the language at large that the trade's own are mixed with; how often a word must have been met for
# what follows it to count as much as what is common.
_AT_LARGE, _BELIEVED = 20_000.0, 6.0
# The ear's levels are half decades; a word of level 0 is met this seldom.
_SELDOM = 10**-8.2
_MOST = 1 << 16


class Talked(BaseModel, frozen=True, extra="forbid"):
    """The typed content of ``lexicon/<lang>/plain.toml``: words of plain talk and pairs of them, counted."""

    total: int = 0
    words: dict[str, int] = {}
    pairs: dict[str, int] = {}


class Plain:
    """The plain talk of one language's commentary, to tell what is strange in it."""

    def __init__(self, talked: Talked, ear: Ear) -> None:
        self._talked, self._ear = talked, ear
        self._known: dict[tuple[str, str], float] = {}

    def surprises(self, stream: Stream) -> Vector:
        """Running sums of how surprising the words are, from 0 before the first to all of them."""
        words = stream.words
        firsts = np.append(True, stream.run[1:] != stream.run[:-1])[: len(words)].tolist()
        known = self._known
        if len(known) > _MOST:
            known.clear()
        sums, before, found = [0.0], "", 0.0
        for word, first in zip(words, firsts, strict=True):
            pair = ("" if first else before, word)
            surprise = known.get(pair)
            if surprise is None:
                surprise = known[pair] = self._surprise(*pair)
            found += surprise
            sums.append(found)
            before = word
        return np.array(sums)

    def _surprise(self, before: str, word: str) -> float:
        talked = self._talked
        at_large = _SELDOM * 10 ** (self._ear.level(word) / 2)
        share = (talked.words.get(word, 0) + _AT_LARGE * at_large) / (talked.total + _AT_LARGE)
        if not before:
            return -math.log10(share)
        pairs = talked.pairs.get(f"{before} {word}", 0)
        return -math.log10((pairs + _BELIEVED * share) / (talked.words.get(before, 0) + _BELIEVED))


@cache
def load_plain(language: str) -> Plain:
    """The plain talk of one language, none where it has no file; LexiconError on a broken file."""
    file = lexicon_root() / language / "plain.toml"
    if not file.is_file():
        return Plain(Talked(), load_ear(language))
    try:
        return Plain(Talked.model_validate(tomllib.loads(file.read_text("utf-8"))), load_ear(language))
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
