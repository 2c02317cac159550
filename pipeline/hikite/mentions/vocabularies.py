"""Distinct words and what is known of each, in arrays that grow as words are met."""

from typing import NamedTuple

import numpy as np

from hikite.sounds import Ear
from hikite.sounds.skeletons import SKELETONS, Ints, Outline, doubled, ends, neighbours

_COMMON = 5
_LONGEST_KEY = 15
_MOST = 1 << 16


class _Traits(NamedTuple):
    """What one reading of a word is known by."""

    sounds: str
    doubled: str
    outlines: tuple[Outline, ...]
    bits: int
    ends: tuple[int, int]


def _traits(sounds: str) -> _Traits:
    outlines = tuple(skeleton.outline(sounds) for skeleton in SKELETONS)
    return _Traits(sounds, doubled(sounds), outlines, neighbours(sounds), ends(sounds))


class Reading(NamedTuple):
    """One way to read every word: its sounds, as they are and doubled."""

    sounds: list[str]
    doubled: list[str]


class Traits:
    """What is known of every word by reading, the words last: numbers in arrays that grow."""

    def __init__(self) -> None:
        self.keys = np.zeros((len(SKELETONS), 2, 256), np.uint64)
        self.sizes = np.zeros((len(SKELETONS), 2, 256), np.uint8)
        self.opening = np.zeros((len(SKELETONS), 2, 256), np.uint8)
        self.closing = np.zeros((len(SKELETONS), 2, 256), np.uint8)
        self.sounds = np.zeros((2, 256), np.int64)
        self.doubled = np.zeros((2, 256), np.int64)
        self.bits = np.zeros((2, 256), np.uint64)
        self.front = np.zeros((2, 256), np.int64)
        self.back = np.zeros((2, 256), np.int64)

    def put(self, reading: int, at: int, known: _Traits) -> None:
        """Enter one reading of one word."""
        if at == self.bits.shape[1]:
            for name, array in vars(self).items():
                setattr(self, name, np.concatenate([array, np.zeros_like(array)], axis=-1))
        for number, outline in enumerate(known.outlines):
            self.keys[number, reading, at] = outline.key & (1 << 4 * _LONGEST_KEY) - 1
            self.sizes[number, reading, at] = min(outline.size, _LONGEST_KEY)
            self.opening[number, reading, at] = outline.opening
            self.closing[number, reading, at] = outline.closing
        self.sounds[reading, at], self.doubled[reading, at] = len(known.sounds), len(known.doubled)
        self.bits[reading, at] = known.bits
        self.front[reading, at], self.back[reading, at] = known.ends


class Vocabulary:
    """Every distinct word met so far, with its readings and how common it is."""

    def __init__(self, ear: Ear) -> None:
        self._ear = ear
        self._numbers: dict[str, int] = {}
        self._asked: tuple[tuple[str, ...], Ints] = (), np.zeros(0, np.int64)
        self.words: list[str] = []
        self.readings = (Reading([], []), Reading([], []))
        self.traits = Traits()
        self.levels = np.zeros(256, np.int64)
        self.twofold = np.zeros(256, np.bool_)

    @property
    def full(self) -> bool:
        """Whether it holds more words than talk needs, most of them garbage: it is to be begun anew."""
        return len(self.words) > _MOST

    def numbers(self, words: tuple[str, ...]) -> Ints:
        """The words' numbers; words not met before are read and added."""
        # Several stages ask of one and the same talk.
        asked, found = self._asked
        if words is not asked:
            found = self._numbered(words)
            self._asked = words, found
        return found

    def _numbered(self, words: tuple[str, ...]) -> Ints:
        get = self._numbers.get
        found = [get(word) for word in words]
        if None in found:
            found = [
                self._add(word) if number is None else number
                for word, number in zip(words, found, strict=True)
            ]
        return np.array(found, np.int64)

    def _add(self, word: str) -> int:
        known = self._numbers.get(word)
        if known is not None:
            return known
        at = self._numbers[word] = len(self.words)
        self.words.append(word)
        if at == len(self.levels):
            self.levels = np.concatenate([self.levels, np.zeros_like(self.levels)])
            self.twofold = np.concatenate([self.twofold, np.zeros_like(self.twofold)])
        readings = self._ear.word(word)
        self.levels[at] = self._ear.level(word)
        self.twofold[at] = readings[0] != readings[-1]
        for number, (reading, sounds) in enumerate(
            zip(self.readings, (readings[0], readings[-1]), strict=True)
        ):
            met = _traits(sounds)
            self.traits.put(number, at, met)
            reading.sounds.append(met.sounds)
            reading.doubled.append(met.doubled)
        return at

    @property
    def rare(self) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
        """Whether each word is one that plain speech seldom holds."""
        return self.levels < _COMMON
