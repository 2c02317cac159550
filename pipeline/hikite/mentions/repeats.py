"""Words said over and over: which windows they leave, and which windows are said again."""

import numpy as np
import numpy.typing as npt

from hikite.mentions.hearing import Sounded
from hikite.mentions.streams import Stream
from hikite.sounds.skeletons import Ints

# So many words may be said again within one window.
_PERIODS = (1, 2, 3)
_WIDEST = 6


def likely(found: Sounded, stream: Stream, ids: Ints) -> Sounded:
    """The windows without those that hold a long figure, or nothing but words said over and over.

    "340 left" sounds like no name, and "ochi ochi" is one name said twice.
    """
    figures = np.array([len(word) > 1 and word.isdecimal() for word in stream.words], np.bool_)
    kept = between(figures, found.first, found.first + found.size) == 0
    for period in _PERIODS:
        same = np.zeros(len(ids), np.bool_)
        same[:-period] = ids[:-period] == ids[period:]
        rest = np.maximum(found.size - period, 0)
        repeated = between(same, found.first, found.first + rest) == rest
        kept &= (rest == 0) | (found.size % period > 0) | ~repeated
    return Sounded(found.first[kept], found.size[kept], found.entry[kept], found.distance[kept])


def again(ids: Ints, start: Ints, stop: Ints) -> npt.NDArray[np.bool_]:
    """Whether the words of each window are said once more right before or behind it."""
    found = np.zeros(len(start), np.bool_)
    for size in range(1, min(_WIDEST, len(ids) // 2) + 1):
        same = np.zeros(len(ids) + 1, np.int64)
        np.cumsum(ids[:-size] == ids[size:], out=same[1 : len(ids) - size + 1])
        same[len(ids) - size + 1 :] = same[len(ids) - size]
        rows = np.flatnonzero(stop - start == size)
        first = start[rows]
        before = np.maximum(first - size, 0)
        found[rows] = (same[first + size] - same[first] == size) | (
            (first >= size) & (same[first] - same[before] == size)
        )
    return found


def between(values: npt.NDArray[np.generic], start: Ints, stop: Ints) -> npt.NDArray[np.int64]:
    """The sum of the values of each window."""
    sums = np.concatenate([[0], np.cumsum(values)]).astype(np.int64)
    return sums[stop] - sums[start]
