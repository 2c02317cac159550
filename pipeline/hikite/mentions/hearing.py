"""Names found by their sound: windows of words that share a key with a name, weighed one by one."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.candidates import KeyTable
from hikite.mentions.streams import Stream
from hikite.mentions.vocabularies import Reading, Vocabulary
from hikite.sounds import Ear
from hikite.sounds.distances import coded, load_costs
from hikite.sounds.skeletons import SKELETONS, Ints, Keys, join, neighbours
from hikite.terms import Name

_WORDS = 6
_LONGEST = 30
_SPREAD = np.uint64(0x9E3779B97F4A7C15)
# Shares of neighbouring sounds that a window must have in common with a name, plain words and odd ones.
_SHARED_PLAIN, _SHARED_ODD = 0.5, 0.3
_ROUGH = 0.5
_FAR = 0.42
_AT_ONCE = 20_000


@dataclass(frozen=True)
class Sounded:
    """Parallel arrays: window ``first``/``size``, the entry it may be and their distance per sound."""

    first: Ints
    size: Ints
    entry: Ints
    distance: npt.NDArray[np.float32]


class Heard:
    """An index of the names' sounds; ``names`` lists the name numbers of each entry."""

    def __init__(self, names: tuple[Name, ...], ear: Ear, language: str) -> None:
        entries: dict[str, list[int]] = {}
        for number, name in enumerate(names):
            for reading in ear.form(name.form, name.language):
                if 3 <= len(reading) <= _LONGEST:
                    entries.setdefault(reading, []).append(number)
        self.readings = list(entries)
        self.names = list(entries.values())
        self.vocabulary = Vocabulary(ear)
        self.lengths = np.array([len(reading) for reading in self.readings], np.int64)
        self._costs = load_costs(language)
        self._codes, self._code_sizes = coded(self.readings)
        self._bits = np.array([neighbours(reading) for reading in self.readings], np.uint64)
        self._rough = [_doubled(reading) for reading in self.readings]
        self._tables = [KeyTable(skeleton, self.readings) for skeleton in SKELETONS]

    def find(self, stream: Stream) -> Sounded:
        """Every window that sounds like a name, with each name it may be."""
        parts = [
            self._part(
                stream.words[start : start + _AT_ONCE + _WORDS],
                stream.run[start : start + _AT_ONCE + _WORDS],
                start,
            )
            for start in range(0, len(stream.words), _AT_ONCE)
        ]
        if not parts:
            nothing = np.zeros(0, np.int64)
            return Sounded(nothing, nothing, nothing, np.zeros(0, np.float32))
        return Sounded(
            *(
                np.concatenate([getattr(part, name) for part in parts])
                for name in ("first", "size", "entry", "distance")
            )
        )

    def _part(self, words: tuple[str, ...], run: Ints, offset: int) -> Sounded:
        ids = self.vocabulary.numbers(words)
        found = []
        for reading, whole in zip(self.vocabulary.readings, (True, False), strict=True):
            found.extend(_Windows(self, reading, ids, run, whole).weighed())
        first, size, entry, distance = (np.concatenate(column) for column in zip(*found, strict=True))
        keep = first < _AT_ONCE
        return Sounded(first[keep] + offset, size[keep], entry[keep], distance[keep])


class _Windows:
    """The windows of one stretch of words under one reading."""

    def __init__(self, index: Heard, reading: Reading, ids: Ints, run: Ints, whole: bool) -> None:
        self._index, self._reading, self._ids, self._run, self._whole = index, reading, ids, run, whole
        vocabulary = index.vocabulary
        self._odd = np.concatenate([[0], np.cumsum(vocabulary.rare[ids])])
        self._two = np.concatenate([[0], np.cumsum(vocabulary.twofold[ids])])
        self._ends = np.concatenate([[0], np.cumsum(reading.lengths[ids])])

    def weighed(self) -> list[tuple[Ints, Ints, Ints, npt.NDArray[np.float32]]]:
        found = []
        ids, reading = self._ids, self._reading
        first_keys = [array[ids] for array in reading.keys]
        first_sizes = [array[ids] for array in reading.sizes]
        keys, sizes = self._following(first_keys, first_sizes)
        bits = reading.bits[ids]
        windows_keys, windows_sizes, windows_bits = first_keys, first_sizes, bits.copy()
        pairs = (reading.back[ids[:-1]] * 16 + reading.front[ids[1:]]) * 0x9E3779B1 >> 20 & 63
        borders = np.left_shift(np.uint64(1), pairs.astype(np.uint64))
        marks = (ids.astype(np.uint64) + np.uint64(1)) * _SPREAD
        for size in range(1, min(_WORDS, len(ids)) + 1):
            count = len(ids) - size + 1
            if size > 1:
                behind = slice(size - 1, None)
                windows_keys = [
                    join(before[:count], one[behind], many[behind])
                    for before, one, many in zip(windows_keys, keys, sizes, strict=True)
                ]
                windows_sizes = [
                    before[:count] + many[behind] for before, many in zip(windows_sizes, sizes, strict=True)
                ]
                windows_bits = windows_bits[:count] | bits[behind] | borders[size - 2 : size - 2 + count]
                marks = (marks[:count] ^ (ids[behind].astype(np.uint64) + np.uint64(7 * size))) * _SPREAD
            result = self._of_size(size, windows_keys, windows_sizes, windows_bits, marks)
            if result is not None:
                found.append(result)
        return found or [(np.zeros(0, np.int64),) * 3 + (np.zeros(0, np.float32),)]

    def _following(self, keys: list[Keys], sizes: list[Ints]) -> tuple[list[Keys], list[Ints]]:
        """The words' keys when another word stands in front: a class shared over the border counts once."""
        later_keys, later_sizes = [], []
        for key, size, closed in zip(keys, sizes, self._reading.closed, strict=True):
            opening, closing = closed[:, self._ids]
            shared = np.zeros(len(self._ids), np.bool_)
            shared[1:] = (opening[1:] == closing[:-1]) & (opening[1:] > 0)
            left = size - shared
            mask = (np.uint64(1) << (left.astype(np.uint64) * np.uint64(4))) - np.uint64(1)
            later_keys.append(np.where(shared, key & mask, key))
            later_sizes.append(left)
        return later_keys, later_sizes

    def _of_size(self, size, keys, sizes, bits, marks):
        count = len(self._ids) - size + 1
        lengths = self._ends[size:] - self._ends[:count]
        fit = (self._run[size - 1 :] == self._run[:count]) & (lengths >= 3) & (lengths <= _LONGEST + 6)
        if not self._whole:
            fit &= self._two[size:] > self._two[:count]
        usable = np.flatnonzero(fit)
        if not len(usable):
            return None
        _, kept, inverse = np.unique(marks[usable], return_index=True, return_inverse=True)
        windows = usable[kept]
        window, entry = self._candidates(size, windows, keys, sizes, bits, lengths)
        if not len(window):
            return None
        window, entry, distance = self._weigh(size, window, entry)
        # Every other place where the same words stand.
        where = np.full(count, -1, np.int64)
        where[windows] = np.arange(len(windows))
        order = np.argsort(inverse, kind="stable")
        starts = np.searchsorted(inverse[order], np.arange(len(windows) + 1))
        slot = where[window]
        repeats = starts[slot + 1] - starts[slot]
        total = int(repeats.sum())
        inside = np.arange(total) - np.repeat(np.cumsum(repeats) - repeats, repeats)
        first = usable[order[np.repeat(starts[slot], repeats) + inside]]
        return first, np.full(total, size, np.int64), np.repeat(entry, repeats), np.repeat(distance, repeats)

    def _candidates(self, size, windows, keys, sizes, bits, lengths):
        index = self._index
        odd = self._odd[size:] > self._odd[: len(self._ids) - size + 1]
        found = []
        for number, table in enumerate(index._tables):
            skeleton = table.skeleton
            widths = sizes[number][windows]
            able = windows[(widths >= max(2, skeleton.shortest - 2)) & (widths <= skeleton.longest + 2)]
            for window, entry in table.look(keys[number][able], sizes[number][able], able):
                long, short = lengths[window], index.lengths[entry]
                near = np.abs(long - short) * 3 <= np.maximum(long, short)
                window, entry = window[near], entry[near]
                shared = np.bitwise_count(bits[window] & index._bits[entry]).astype(np.float32)
                most = np.maximum(np.bitwise_count(bits[window]), np.bitwise_count(index._bits[entry]))
                enough = shared >= most * np.where(odd[window], _SHARED_ODD, _SHARED_PLAIN)
                found.append(window[enough] * len(index.readings) + entry[enough])
        if not found:
            return np.zeros(0, np.int64), np.zeros(0, np.int64)
        pairs = np.unique(np.concatenate(found))
        return pairs // len(index.readings), pairs % len(index.readings)

    def _weigh(self, size, window, entry):
        index, sounds = self._index, self._reading.sounds
        ids = self._ids.tolist()
        heard = {
            at: "".join([sounds[word] for word in ids[at : at + size]]) for at in np.unique(window).tolist()
        }
        rough = {at: _doubled(reading) for at, reading in heard.items()}
        alike = process.cpdist(
            [rough[at] for at in window.tolist()],
            [index._rough[at] for at in entry.tolist()],
            scorer=Levenshtein.normalized_similarity,
            score_cutoff=_ROUGH,
            dtype=np.float32,
        )
        good = np.flatnonzero(alike >= _ROUGH)
        window, entry = window[good], entry[good]
        if not len(window):
            return window, entry, np.zeros(0, np.float32)
        codes, code_sizes = coded([heard[at] for at in window.tolist()])
        distance = index._costs.distances(codes, code_sizes, index._codes[entry], index._code_sizes[entry])
        distance /= (code_sizes + index.lengths[entry]) / 2 + 1
        close = np.flatnonzero(distance <= _FAR)
        return window[close], entry[close], distance[close].astype(np.float32)


_CLASSES = {
    s: c
    for c, members in enumerate(("pb", "fv", "kg", "tdTD", "sz", "SZCJ", "m", "nN", "lr"), 1)
    for s in members
}
_VOWELS = {
    s: v for v, members in zip("aeiou", ("aA@", "eE3", "iIY", "oO8", "uUW"), strict=True) for s in members
}


def _doubled(sounds: str) -> str:
    """Consonants as class and letter, vowels as one rough letter: plain edit distance then weighs confusions."""
    return "".join(
        f"{_CLASSES[sound]}{sound}" if sound in _CLASSES else _VOWELS.get(sound, sound) for sound in sounds
    )
