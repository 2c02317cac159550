"""Word windows that share a sound key with a name: few enough to be weighed one by one."""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from hikite.sounds.skeletons import Ints, Keys, Skeleton, drop

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_BITS = 20


class KeyTable:
    """Entries of an index by the keys of one skeleton."""

    def __init__(self, skeleton: Skeleton, readings: list[str]) -> None:
        self.skeleton = skeleton
        keys: list[int] = []
        entries: list[int] = []
        for entry, reading in enumerate(readings):
            key, size = skeleton.key(reading)
            if skeleton.shortest <= size <= skeleton.longest:
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

    def look(self, keys: Keys, sizes: Ints, losses: Ints) -> Iterator[tuple[Ints, Ints]]:
        """Rows of ``keys`` and entries that share a key, after up to ``losses`` classes are left out."""
        yield from self._hit(keys, np.arange(len(keys)))
        one = np.flatnonzero(losses > 0)
        keys, sizes, losses = keys[one], sizes[one], losses[one]
        for place in range(int(sizes.max(initial=0))):
            long = np.flatnonzero(sizes > place)
            if not len(long):
                break
            shorter = drop(keys[long], place)
            yield from self._hit(shorter, one[long])
            two = np.flatnonzero(losses[long] > 1)
            if len(two):
                for second in range(place):
                    yield from self._hit(drop(shorter[two], second), one[long[two]])

    def _hit(self, keys: Keys, rows: Ints) -> Iterator[tuple[Ints, Ints]]:
        maybe = np.flatnonzero(self._seen[_slots(keys)])
        if not len(maybe):
            return
        keys, rows = keys[maybe], rows[maybe]
        at = np.searchsorted(self._keys, keys)
        at[at == len(self._keys)] = 0
        sure = self._keys[at] == keys
        at, rows = at[sure], rows[sure]
        counts = self._first[at + 1] - self._first[at]
        total = int(counts.sum())
        if total:
            inside = np.arange(total) - np.repeat(np.cumsum(counts) - counts, counts)
            yield np.repeat(rows, counts), self._entries[np.repeat(self._first[at], counts) + inside]


def _slots(keys: Keys) -> npt.NDArray[np.uint64]:
    return (keys * _SPREAD) >> np.uint64(64 - _BITS)
