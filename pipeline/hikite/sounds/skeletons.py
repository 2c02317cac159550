"""Sounds reduced to keys that garbled words still share: classes of consonants, packed into one number."""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

Keys = npt.NDArray[np.uint64]
Ints = npt.NDArray[np.int64]
Sizes = npt.NDArray[np.uint8]
Bits = npt.NDArray[np.uint64]
Flags = npt.NDArray[np.bool_]
Number = TypeVar("Number", int, Ints)
_WIDTH = 4
_VOWELS = frozenset("aA@oeiIOuU3EYW8")


class Outline(NamedTuple):
    """A reading's key and the number of classes in it; what opens and closes it, 0 where no class does."""

    key: int
    size: int
    opening: int
    closing: int


@dataclass(frozen=True)
class Skeleton:
    """One way to reduce sounds: ``classes`` of sounds that count as one, and what may be lost from a key.

    ``vowels`` keeps vowels as a class of their own, for names too short to be known by consonants alone.
    Forms of ``shortest`` to ``longest`` classes are indexed; ``losses`` are as many classes as may be missing
    from a key of at least the given length, on either side: a class heard wrongly is one lost on both.
    """

    classes: tuple[str, ...]
    vowels: bool
    shortest: int
    longest: int
    losses: tuple[tuple[int, int], ...]

    def key(self, sounds: str) -> tuple[int, int]:
        """The packed classes of a reading and their number; a class does not follow itself."""
        return self.outline(sounds)[:2]

    def outline(self, sounds: str) -> "Outline":
        """The key of a reading, and the classes that open and close it."""
        key = size = last = 0
        codes = self._coded(sounds)
        for code in codes:
            if code > 0 and code != last:
                key, size = key << _WIDTH | code, size + 1
            if code >= 0:
                last = code
        return Outline(key, size, max(codes[0], 0), max(codes[-1], 0)) if codes else Outline(0, 0, 0, 0)

    def _coded(self, sounds: str) -> list[int]:
        """The class of each sound, 0 for a vowel that is none, -1 for what is passed over."""
        codes = _codes_of(self.classes, self.vowels)
        found = [codes[sound] for sound in sounds]
        # An r that closes a syllable is not heard as one; t before s is part of a harsh s.
        at = sounds.find("r")
        while at >= 0:
            if sounds[at + 1 : at + 2] not in _VOWELS:
                found[at] = -1
            at = sounds.find("r", at + 1)
        return found

    def lost(self, size: int) -> int:
        """How many classes may be missing from a key of this size."""
        return max((loss for least, loss in self.losses if size >= least), default=0)


@cache
def _codes_of(classes: tuple[str, ...], vowels: bool) -> dict[str, int]:
    """The class number of each sound; vowels share the last where they are kept, are 0 otherwise."""
    codes = {sound: number for number, members in enumerate(classes, 1) for sound in members}
    rest = dict.fromkeys(_GROUP, -1) | dict.fromkeys(_VOWELS, len(classes) + 1 if vowels else 0)
    return rest | codes


# Consonants alone, finely cut, for long names; coarsely cut, for middling ones; vowels kept, for short ones.
FINE = Skeleton(("pb", "fv", "kg", "tdTD", "sz", "SZCJ", "m", "nN", "lr"), False, 5, 12, ((5, 1), (6, 2)))
COARSE = Skeleton(("pbfv", "kg", "tdTD", "szSZCJ", "mnN", "lr"), False, 4, 10, ((4, 1),))
SHAPE = Skeleton(("pbfv", "kg", "tdTD", "szSZCJ", "mnN", "lr"), True, 3, 7, ((4, 1),))
SKELETONS = (FINE, COARSE, SHAPE)


# Keys of several skeletons side by side are told apart by their last two bits.
TAG = 2
_BELOW = np.arange(16, dtype=np.uint64) * np.uint64(_WIDTH) + np.uint64(TAG)
_MASKS = (np.uint64(1) << _BELOW) - np.uint64(1)


def tagged(keys: Keys) -> Keys:
    """The keys, a row for each of ``SKELETONS``, so that keys of two rows are never the same."""
    return keys << np.uint64(TAG) | np.arange(len(keys), dtype=np.uint64)[:, None]


def drop(keys: Keys, places: Ints | int) -> Keys:
    """The tagged keys, each without the class at a place, counted from the end."""
    below = _BELOW[places]
    found = keys >> (below + np.uint64(_WIDTH))
    found <<= below
    found |= keys & _MASKS[places]
    return found


def last(keys: Keys, sizes: Sizes) -> Keys:
    """The last classes of keys that are not yet tagged, so many of each."""
    return keys & ((np.uint64(1) << (sizes.astype(np.uint64) * np.uint64(_WIDTH))) - np.uint64(1))


def join(keys: Keys, following: Keys, sizes: Keys) -> Keys:
    """The keys, not yet tagged, with those of the following words behind them."""
    return (keys << (sizes * np.uint64(_WIDTH))) | following


_GROUPS = ("pb", "fv", "kg", "tdTD", "sz", "SZCJ", "m", "nN", "lr", "aA@o", "eiIEY", "OuUW83", "w", "y", "h")
_GROUP = {sound: number for number, members in enumerate(_GROUPS) for sound in members}


def neighbours(sounds: str) -> int:
    """Which groups of sounds stand side by side, one bit of 64 a pair."""
    bits = 0
    for one, two in pairwise(sounds):
        bits |= 1 << border(_GROUP[one], _GROUP[two])
    return bits


def border(one: Number, two: Number) -> Number:
    """The bit of a pair of groups, or of many pairs."""
    return ((one * 16 + two) * 0x9E3779B1 >> 20) & 63


def ends(sounds: str) -> tuple[int, int]:
    """The groups of the first and the last sound; 15 where there is none."""
    return (_GROUP[sounds[0]], _GROUP[sounds[-1]]) if sounds else (15, 15)


_CLASSES = {s: n for n, members in enumerate(FINE.classes, 1) for s in members}
_VOWEL = {
    s: v for v, members in zip("aeiou", ("aA@", "eE3", "iIY", "oO8", "uUW"), strict=True) for s in members
}


def doubled(sounds: str) -> str:
    """Consonants as class and sound, vowels as one rough sign: plain edit distance then weighs confusions."""
    return "".join(f"{_CLASSES[s]}{s}" if s in _CLASSES else _VOWEL.get(s, s) for s in sounds)


def outlined(sounds: str) -> str:
    """The classes of the consonants and rough vowels: readings of one outline are hardly told apart."""
    return "".join(str(_CLASSES.get(s, _VOWEL.get(s, s))) for s in sounds)
