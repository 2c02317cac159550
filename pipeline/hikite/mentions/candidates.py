"""Word windows that share a sound key with a name: few enough to be weighed one by one."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from hikite.sounds.skeletons import Ints, Keys, Skeleton, drop

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_BITS = 21


@dataclass(frozen=True)
class Pairs:
    """Windows of ``size`` words from ``first``, each with an entry of the index it may be."""

    first: Ints
    size: Ints
    entry: Ints


class KeyTable:
    """Entries of the index by the keys of one skeleton."""

    def __init__(self, skeleton: Skeleton, readings: list[str]) -> None:
        self.skeleton = skeleton
        keys, entries = [], []
        for entry, reading in enumerate(readings):
            key, size = skeleton.key(reading)
            if skeleton.shortest <= size <= skeleton.longest and (not skeleton.vowels or _short(reading)):
                shorter = skeleton.shortened(key, size)
                keys.extend(shorter)
                entries.extend([entry] * len(shorter))
        order = np.argsort(np.array(keys, np.uint64), kind="stable")
        every = np.array(keys, np.uint64)[order]
        self._entries = np.array(entries, np.int64)[order]
        self._keys, first = np.unique(every, return_index=True)
        self._first = np.append(first, len(every)).astype(np.int64)
        self._seen = np.zeros(1 << _BITS, np.bool_)
        self._seen[_slots(self._keys)] = True

    def look(self, keys: Keys, sizes: Ints, windows: Ints) -> Iterator[tuple[Ints, Ints]]:
        """Windows and the entries they share a key with, after every permitted loss on the window's side."""
        yield from self._hit(keys, windows)
        for place in range(int(sizes.max(initial=0))):
            one = np.flatnonzero((sizes > place) & (sizes >= self.skeleton.losses[0][0]))
            if not len(one):
                continue
            shorter = drop(keys[one], place)
            yield from self._hit(shorter, windows[one])
            if len(self.skeleton.losses) > 1:
                long = np.flatnonzero(sizes[one] >= self.skeleton.losses[1][0])
                for second in range(place):
                    if len(long):
                        yield from self._hit(drop(shorter[long], second), windows[one][long])

    def _hit(self, keys: Keys, windows: Ints) -> Iterator[tuple[Ints, Ints]]:
        maybe = np.flatnonzero(self._seen[_slots(keys)])
        if not len(maybe):
            return
        keys, windows = keys[maybe], windows[maybe]
        at = np.searchsorted(self._keys, keys)
        at[at == len(self._keys)] = 0
        sure = self._keys[at] == keys
        at, windows = at[sure], windows[sure]
        counts = self._first[at + 1] - self._first[at]
        total = int(counts.sum())
        if not total:
            return
        inside = np.arange(total) - np.repeat(np.cumsum(counts) - counts, counts)
        yield np.repeat(windows, counts), self._entries[np.repeat(self._first[at], counts) + inside]


def _slots(keys: Keys) -> npt.NDArray[np.uint64]:
    return (keys * _SPREAD) >> np.uint64(64 - _BITS)


def _short(reading: str) -> bool:
    return sum(sound not in "aA@oeiIOuU3EYW8hwy" for sound in reading) <= 4
