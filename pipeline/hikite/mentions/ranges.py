"""Figures of many ranges of words at once: counts, sums, and which are said twice in a row."""

import numpy as np
import numpy.typing as npt

from hikite.sounds.skeletons import Ints


def between(values: npt.NDArray[np.generic], start: Ints, stop: Ints) -> npt.NDArray[np.int64]:
    """How many of the values are set in each range, or their sum in whole numbers."""
    sums = np.concatenate([[0], np.cumsum(values)]).astype(np.int64)
    return sums[np.minimum(stop, len(values))] - sums[start]


def summed(values: npt.NDArray[np.float64], start: Ints, stop: Ints) -> npt.NDArray[np.float64]:
    """The sum of the values in each range."""
    sums = np.concatenate([[0], np.cumsum(values)])
    return np.asarray(sums[np.minimum(stop, len(values))] - sums[start], np.float64)


def repeated(ids: Ints, start: Ints, size: Ints) -> npt.NDArray[np.bool_]:
    """Whether the words of each window stand right before or behind it once more."""
    mark = np.zeros(len(ids) + 1, np.uint64)
    # A running sum of scrambled numbers tells whether two stretches hold the same words.
    scrambled = (ids.astype(np.uint64) + np.uint64(1)) * np.uint64(0x9E3779B97F4A7C15)
    scrambled ^= scrambled >> np.uint64(29)
    np.cumsum(scrambled, out=mark[1:])
    stop = start + size
    own = mark[stop] - mark[start]
    before = (start >= size) & (mark[start] - mark[np.maximum(start - size, 0)] == own)
    after = (stop + size <= len(ids)) & (mark[np.minimum(stop + size, len(ids))] - mark[stop] == own)
    return np.asarray(before | after)
