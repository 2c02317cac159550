"""Every window of one to six words, with the sound keys of each, made from arrays of words at once."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from hikite.mentions.candidates import spread
from hikite.mentions.vocabularies import Reading, Vocabulary
from hikite.sounds.skeletons import SKELETONS, Bits, Flags, Ints, Keys, join

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_WIDEST = 6


@dataclass(frozen=True)
class Windows:
    """Distinct windows: a place ``first`` where the words stand, their number, which ``reading``.

    ``keys`` and ``sizes`` are by skeleton; ``bits`` are the sounds side by side, ``sounds`` their number, and
    ``odd`` tells whether a word that plain speech seldom holds is among them. ``places`` are all places in
    the text by window; those of window n are from ``starts[n]`` up to ``starts[n + 1]``.
    """

    first: Ints
    size: Ints
    reading: Ints
    keys: list[Keys]
    sizes: list[Ints]
    bits: Bits
    sounds: Ints
    odd: Flags
    places: Ints
    starts: Ints

    def everywhere(self, rows: Ints) -> tuple[Ints, Ints]:
        """For windows ``rows``, all places where each stands: indexes into ``rows`` and the places."""
        index, inside = spread(self.starts[rows + 1] - self.starts[rows])
        return index, self.places[self.starts[rows][index] + inside]


def windows(vocabulary: Vocabulary, ids: Ints, run: Ints, least: int, most: int) -> Windows:
    """The windows over words of these numbers that lie in one run and have ``least`` to ``most`` sounds."""
    columns: list[list[npt.NDArray[np.generic]]] = []
    twofold, rare = vocabulary.twofold[ids], vocabulary.rare[ids]
    for number, reading in enumerate(vocabulary.readings):
        ends = np.concatenate([[0], np.cumsum(reading.lengths[ids])])
        for size, keys, sizes, bits, mark in _of_every_size(reading, ids):
            count = len(ids) - size + 1
            sounds = ends[size:] - ends[:count]
            fit = (run[size - 1 :] == run[:count]) & (sounds >= least) & (sounds <= most)
            if number:
                fit &= _within(twofold, size)
            at = np.flatnonzero(fit)
            odd = _within(rare, size)
            same = np.full(len(at), size, np.int64), np.full(len(at), number, np.int64)
            marks = mark[at] ^ np.uint64(number)
            columns.append(
                [at, *same, sounds[at], odd[at], bits[at], marks, *(a[at] for a in (*keys, *sizes))]
            )
    first, size_, reading_, sounds_, odd_, bits_, marks_, *rest = (
        np.concatenate(column) for column in zip(*columns, strict=True)
    )
    order = np.argsort(marks_)
    ordered = marks_[order]
    heads = np.flatnonzero(np.append(True, ordered[1:] != ordered[:-1])[: len(order)])
    kept = order[heads]
    return Windows(
        first[kept],
        size_[kept],
        reading_[kept],
        [array[kept] for array in rest[: len(SKELETONS)]],
        [array[kept] for array in rest[len(SKELETONS) :]],
        bits_[kept],
        sounds_[kept],
        odd_[kept],
        first[order],
        np.append(heads, len(order)),
    )


def _of_every_size(reading: Reading, ids: Ints) -> Iterator[tuple[int, list[Keys], list[Ints], Bits, Keys]]:
    """Window size, keys and key sizes by skeleton, neighbour bits and marks; one row for each first word."""
    keys = [array[ids] for array in reading.keys]
    sizes = [array[ids] for array in reading.sizes]
    later_keys, later_sizes = _following(reading, ids, keys, sizes)
    bits, borders = reading.bits[ids], _borders(reading, ids)
    words = ids.astype(np.uint64) + np.uint64(1)
    spanned, mark = bits, words * _SPREAD
    for size in range(1, min(_WIDEST, len(ids)) + 1):
        count = len(ids) - size + 1
        if size > 1:
            last = slice(size - 1, None)
            keys = [
                join(key[:count], new[last], number[last])
                for key, new, number in zip(keys, later_keys, later_sizes, strict=True)
            ]
            sizes = [number[:count] + new[last] for number, new in zip(sizes, later_sizes, strict=True)]
            spanned = spanned[:count] | bits[last] | borders[size - 2 :]
            mark = (mark[:count] ^ (words[last] + np.uint64(7 * size))) * _SPREAD
        yield size, keys, sizes, spanned, mark


def _following(
    reading: Reading, ids: Ints, keys: list[Keys], sizes: list[Ints]
) -> tuple[list[Keys], list[Ints]]:
    """The words' keys when another word stands in front: a class shared over the border counts once."""
    later_keys, later_sizes = [], []
    for key, size, closed in zip(keys, sizes, reading.closed, strict=True):
        opening, closing = closed[:, ids]
        shared = np.zeros(len(ids), np.bool_)
        shared[1:] = (opening[1:] == closing[:-1]) & (opening[1:] > 0)
        left = size - shared
        kept = (np.uint64(1) << (left.astype(np.uint64) * np.uint64(4))) - np.uint64(1)
        later_keys.append(np.where(shared, key & kept, key))
        later_sizes.append(left)
    return later_keys, later_sizes


def _borders(reading: Reading, ids: Ints) -> Bits:
    """The bit of the two sounds that meet at each border between words."""
    pairs = (reading.back[ids[:-1]] * 16 + reading.front[ids[1:]]) * 0x9E3779B1 >> 20 & 63
    return np.left_shift(np.uint64(1), pairs.astype(np.uint64))


def _within(flags: Flags, size: int) -> Flags:
    """Whether any word of each window of a size is flagged."""
    sums = np.concatenate([[0], np.cumsum(flags)])
    return np.asarray(sums[size:] > sums[: len(flags) - size + 1], np.bool_)
