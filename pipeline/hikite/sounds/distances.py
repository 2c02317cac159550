"""A weighted edit distance between sounds, worked out for many pairs at once."""

import tomllib
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import numpy as np
import numpy.typing as npt
from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.places import lexicon_root

SOUNDS = "aA@oeiIOuU3EYW8pbtdkgfvszSZCJmnNlrwyhTD"
_CODES = {sound: number for number, sound in enumerate(SOUNDS, start=1)}
_TABLE = bytes(_CODES.get(chr(code), 0) for code in range(256))
Ints = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float32]
Shares = npt.NDArray[np.float64]
_AT_ONCE = 1024
Codes = npt.NDArray[np.int8]


class Confusions(BaseModel, frozen=True, extra="forbid"):
    """The typed content of ``lexicon/<lang>/confusions.toml``."""

    classes: tuple[str, ...]
    same_class: float
    other_class: float
    vowel_for_consonant: float
    vowel_floor: float
    vowel_scale: float
    drop_vowel: float
    drop_weak: float
    drop_consonant: float
    weak: str
    vowels: dict[str, tuple[float, float]]
    pairs: dict[str, float]

    def swap(self, one: str, two: str) -> float:
        """The cost of hearing ``two`` as ``one``."""
        if one == two:
            return 0.0
        pair = self.pairs.get(one + two, self.pairs.get(two + one))
        if pair is not None:
            return pair
        places = self.vowels.get(one), self.vowels.get(two)
        if places[0] and places[1]:
            apart = sum(abs(a - b) for a, b in zip(places[0], places[1], strict=True))
            return self.vowel_floor + self.vowel_scale * apart
        if places[0] or places[1]:
            return self.vowel_for_consonant
        alike = any(one in members and two in members for members in self.classes)
        return self.same_class if alike else self.other_class

    def drop(self, sound: str) -> float:
        """The cost of a sound lost or added."""
        if sound in self.vowels:
            return self.drop_vowel
        return self.drop_weak if sound in self.weak else self.drop_consonant


class Costs:
    """The costs as tables: ``swaps`` by heard and meant sound, ``drops`` by sound; code 0 is padding."""

    def __init__(self, confusions: Confusions) -> None:
        size = len(SOUNDS) + 1
        self.swaps: Floats = np.zeros((size, size), np.float32)
        self.drops: Floats = np.zeros(size, np.float32)
        for one, code in _CODES.items():
            self.drops[code] = confusions.drop(one)
            for two, other in _CODES.items():
                self.swaps[code, other] = confusions.swap(one, two)

    def distances(self, heard: Codes, heard_sizes: Ints, meant: Codes, meant_sizes: Ints) -> Floats:
        """The cost of each pair of rows; sizes are the true lengths of the padded rows."""
        found = np.zeros(len(heard), np.float32)
        # Pairs of like length are worked out together, so that short ones are not padded to the longest.
        order = np.argsort(np.maximum(heard_sizes, meant_sizes))
        for start in range(0, len(order), _AT_ONCE):
            rows = order[start : start + _AT_ONCE]
            here, there = int(heard_sizes[rows].max()), int(meant_sizes[rows].max())
            found[rows] = self._batch(
                heard[rows, :here], heard_sizes[rows], meant[rows, :there], meant_sizes[rows]
            )
        return found

    def shares(self, heard: Sequence[str], meant: Sequence[str], at: Ints, which: Ints) -> Shares:
        """The cost of each pair ``heard[at]`` and ``meant[which]`` as a part of the longer one's length."""
        (codes, sizes), (meant_codes, meant_sizes) = coded(heard), coded(meant)
        costs = self.distances(codes[at], sizes[at], meant_codes[which], meant_sizes[which])
        return costs / np.maximum(sizes[at], meant_sizes[which])

    def _batch(self, heard: Codes, heard_sizes: Ints, meant: Codes, meant_sizes: Ints) -> Floats:
        """The distances of pairs of like length: one table row at a time, all pairs in one step."""
        heard, meant = heard.T.astype(np.intp, order="C"), meant.T.astype(np.intp, order="C")
        swaps = self.swaps.take((heard * len(self.swaps))[:, None] + meant)
        drops = self.drops[heard]
        table = np.zeros((len(heard) + 1, len(meant) + 1, heard.shape[1]), np.float32)
        # What all sounds meant so far cost when lost: taking it off makes a row's losses a running minimum.
        lost = table[0]
        np.cumsum(self.drops[meant], axis=0, out=lost[1:])
        for before, after, swap, drop in zip(table, table[1:], swaps, drops, strict=False):
            np.add(before, drop, out=after)
            swap += before[:-1]
            np.minimum(after[1:], swap, out=after[1:])
            after -= lost
            for less, more in pairwise(after):
                np.minimum(less, more, out=more)
            after += lost
        every = np.arange(heard.shape[1])
        return np.asarray(table[heard_sizes, meant_sizes, every], np.float32)


def coded(sounds: Sequence[str]) -> tuple[Codes, Ints]:
    """Readings as rows of codes, padded with 0, and their lengths."""
    sizes = np.array([len(reading) for reading in sounds], np.int64)
    width = int(sizes.max(initial=1))
    joined = "".join([reading.ljust(width) for reading in sounds]).encode("ascii").translate(_TABLE)
    return np.frombuffer(joined, np.int8).reshape(len(sounds), width), sizes


@cache
def load_costs(language: str) -> Costs:
    """The costs for a recogniser of one language; LexiconError where its file is missing or broken."""
    file = lexicon_root() / language / "confusions.toml"
    try:
        return Costs(Confusions.model_validate(tomllib.loads(file.read_text("utf-8"))))
    except (OSError, tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
