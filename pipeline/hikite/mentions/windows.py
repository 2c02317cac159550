"""Every window of one to six words, with the sound keys of each, made from arrays of words at once."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from hikite.mentions.vocabularies import Reading
from hikite.sounds.skeletons import Bits, Flags, Ints, Keys, join

_SPREAD = np.uint64(0x9E3779B97F4A7C15)


@dataclass(frozen=True)
class Windows:
    """Windows of ``size`` words, one for each first word.

    ``keys`` and ``sizes`` are by skeleton; ``bits`` are the sounds side by side, ``sounds`` their number;
    ``mark`` is equal where the words are.
    """

    size: int
    keys: list[Keys]
    sizes: list[Ints]
    bits: Bits
    sounds: Ints
    mark: Keys


def windows(reading: Reading, ids: Ints, widest: int) -> Iterator[Windows]:
    """The windows of every size up to ``widest`` over words of these numbers, under one reading."""
    first_keys = [array[ids] for array in reading.keys]
    first_sizes = [array[ids] for array in reading.sizes]
    later_keys, later_sizes = _following(reading, ids, first_keys, first_sizes)
    bits = reading.bits[ids]
    borders = _borders(reading, ids)
    lengths = np.concatenate([[0], np.cumsum(reading.lengths[ids])])
    words = ids.astype(np.uint64) + np.uint64(1)
    keys, sizes, spanned, mark = first_keys, first_sizes, bits, words * _SPREAD
    for size in range(1, min(widest, len(ids)) + 1):
        count = len(ids) - size + 1
        if size > 1:
            last = slice(size - 1, None)
            keys = [
                join(k[:count], new[last], n[last])
                for k, new, n in zip(keys, later_keys, later_sizes, strict=True)
            ]
            sizes = [n[:count] + new[last] for n, new in zip(sizes, later_sizes, strict=True)]
            spanned = spanned[:count] | bits[last] | borders[size - 2 :]
            mark = (mark[:count] ^ (words[last] + np.uint64(7 * size))) * _SPREAD
        yield Windows(size, keys, sizes, spanned, lengths[size:] - lengths[:count], mark)


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


def repeated(inverse: Ints, rows: Ints) -> tuple[Ints, Ints]:
    """For each of ``rows``, all places that ``inverse`` maps to it: indexes into ``rows`` and the places."""
    order = np.argsort(inverse, kind="stable")
    starts = np.searchsorted(inverse[order], np.arange(int(inverse.max(initial=0)) + 2))
    counts = starts[rows + 1] - starts[rows]
    inside = np.arange(int(counts.sum())) - np.repeat(np.cumsum(counts) - counts, counts)
    return np.repeat(np.arange(len(rows)), counts), order[np.repeat(starts[rows], counts) + inside]


def odd_in(odd: Flags, size: int) -> Ints:
    """How many odd words each window of a size holds."""
    sums = np.concatenate([[0], np.cumsum(odd)])
    return np.asarray(sums[size:] - sums[: len(odd) - size + 1], np.int64)
