"""How likely a sound match is meant: what speaks for it, weighed by figures fitted to labelled speech."""

import tomllib
from functools import cache

import numpy as np
import numpy.typing as npt
from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.places import lexicon_root

Matrix = npt.NDArray[np.float64]
Vector = npt.NDArray[np.float64]
# What is known of a window and its best name, column by column; ``evidence.toml`` weighs each.
SIGNS = (
    "always",  # 1
    "distance",  # sound distance per sound
    "square",  # its square
    "close",  # how much nearer than a tenth
    "close_odd",  # the same where there is an odd word
    "short_close",  # the same of short names
    "sounds",  # logarithm of the name's number of sounds
    "long_far",  # distance x sounds
    "odd",  # words that plain speech seldom holds
    "plain",  # 1 where there is none
    "plain_far",  # distance where there is none
    "common",  # how common the words are on average
    "long_common",  # common x sounds
    "words",  # number of words
    "words_common",  # words x common
    "opens_weak",  # the first word is one of the commonest
    "closes_weak",  # the last word is one of the commonest
    "mark",  # punctuation inside
    "margin",  # how much farther the next concept is
    "doing",  # an attack or grip word in front
    "actor",  # a competitor beside it
    "trade",  # other words of the trade around it
    "guest",  # the name's language is one that this commentary borrows from
    "native",  # the name is in the commentary's own language
    "ordinary",  # how common the name's own words are, where it is native
    "needed",  # how often a bout needs the concept
    "shared",  # share of the name's letters that stand in words found whole
    "letters",  # likeness of the letters
    "spelt",  # a name stands there as written
)
# The same of a name that stands there as written; the last six only count for everyday words.
WRITTEN_SIGNS = (
    "always",  # 1
    "weak",  # an everyday word
    "grip",  # a grip
    "ambiguous",  # it may mean several things
    "ended",  # with an ending
    "letters",  # logarithm of the number of letters
    "words",  # number of words
    "common",  # how common the words are on average
    "doing",  # an attack or grip word in front
    "actor",  # a competitor beside it
    "trade",  # other words of the trade around it
    "among",  # words around it that belong to names that are no everyday words
    "beside",  # 1 where such a name stands right beside it
    "alone",  # 1 where it is all that is said between two halts
    "weak_alone",
    "weak_doing",
    "weak_trade",
    "weak_among",
    "weak_common",
    "weak_letters",
)


class Weights(BaseModel, frozen=True, extra="forbid"):
    """The typed content of ``lexicon/<lang>/evidence.toml``: weights of sound matches and of written names.

    ``least`` is the least probability of a sound match to report, ``least_written`` of a written name.
    """

    fitted: str
    least: float
    least_written: float
    guests: tuple[str, ...]
    weights: dict[str, float]
    written: dict[str, float]

    def vector(self) -> Vector:
        """The weights in the order of ``SIGNS``."""
        return np.array([self.weights.get(sign, 0.0) for sign in SIGNS], np.float64)

    def written_vector(self) -> Vector:
        """The weights of written names in the order of ``WRITTEN_SIGNS``."""
        return np.array([self.written.get(sign, 0.0) for sign in WRITTEN_SIGNS], np.float64)


@cache
def load_weights(language: str) -> Weights:
    """The weights for one language; LexiconError on a missing or broken file or an unknown sign."""
    file = lexicon_root() / language / "evidence.toml"
    try:
        weights = Weights.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (OSError, tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
    unknown = (set(weights.weights) - set(SIGNS)) | (set(weights.written) - set(WRITTEN_SIGNS))
    if unknown:
        raise LexiconError(f"unknown sign: {', '.join(sorted(unknown))}", file=str(file))
    return weights
