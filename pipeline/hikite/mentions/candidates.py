"""Word windows that share a sound key with a name: few enough to be weighed one by one."""

import numpy as np
import numpy.typing as npt

from hikite.sounds.skeletons import Ints, Keys, Skeleton, drop

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_BITS, _ROUGHLY = 20, np.uint64(2)
_FRONT, _BACK = np.tril_indices(16, -1)


class KeyTable:
    """Entries of an index by the keys of one skeleton."""

    def __init__(self, skeleton: Skeleton, readings: list[str]) -> None:
        self.skeleton = skeleton
        found = [skeleton.key(reading) for reading in readings]
        sizes = np.array([size for _, size in found], np.int64)
        rows = np.flatnonzero((sizes >= skeleton.shortest) & (sizes <= skeleton.longest))
        keys = np.array([found[row][0] for row in rows], np.uint64)
        lost = skeleton.lost_of(sizes[rows])
        keys, of = shortened(keys, sizes[rows], lost)
        entries = rows[of]
        order = np.lexsort((entries, keys))
        keys, entries = keys[order], entries[order]
        new = np.append(True, (keys[1:] != keys[:-1]) | (entries[1:] != entries[:-1]))
        every, self._entries = keys[new], entries[new]
        kept, first = np.unique(every, return_index=True)
        ends = np.append(first[1:], len(every))
        by_slot = np.argsort(_slots(kept), kind="stable")
        # One row more than keys, so that a look past the last slot finds a key that no word has.
        self._keys = np.append(kept[by_slot], ~np.uint64(0))
        self._first = np.append(first[by_slot], 0).astype(np.int64)
        self._counts = np.append((ends - first)[by_slot], 0).astype(np.int64)
        self._build()

    def _build(self) -> None:
        slots = _slots(self._keys[:-1])
        self._slot = np.full(1 << _BITS, len(slots), np.int32)
        self._slot[slots[::-1]] = np.arange(len(slots), dtype=np.int32)[::-1]
        # A smaller table that stays in the processor's cache turns most keys away.
        self._seen = np.zeros(1 << _BITS >> int(_ROUGHLY), np.bool_)
        self._seen[slots >> _ROUGHLY] = True
        self._crowd = int(np.bincount(slots.astype(np.int64)).max(initial=1))

    def __getstate__(self) -> dict[str, object]:
        """All but the large tables, which are sooner made from the keys than read."""
        return {name: value for name, value in self.__dict__.items() if name not in ("_slot", "_seen")}

    def __setstate__(self, state: dict[str, object]) -> None:
        self.__dict__.update(state)
        self._build()

    def look(self, keys: Keys, sizes: Ints, losses: Ints) -> tuple[Ints, Ints]:
        """Rows of ``keys`` and entries that share a key, after up to ``losses`` classes are left out."""
        return self._hit(*shortened(keys, sizes, losses))

    def _hit(self, keys: Keys, rows: Ints) -> tuple[Ints, Ints]:
        """Rows and entries of all keys that the table holds."""
        slots = _slots(keys)
        maybe = np.flatnonzero(self._seen[slots >> _ROUGHLY])
        keys, at = keys[maybe], self._slot[slots[maybe]].astype(np.int64)
        for _ in range(self._crowd - 1):
            at += (self._keys[at] != keys) & (at < len(self._keys) - 1)
        sure = np.flatnonzero(self._keys[at] == keys)
        at, rows = at[sure], rows[maybe[sure]]
        counts = self._counts[at]
        hit, inside = spread(counts)
        return rows[hit], self._entries[self._first[at][hit] + inside]


def shortened(keys: Keys, sizes: Ints, losses: Ints) -> tuple[Keys, Ints]:
    """Every key as it is and with one and two classes left out as far as permitted, and the row of each."""
    rows = np.arange(len(keys))
    one = rows[losses > 0]
    each, place = spread(sizes[one])
    shorter, of_shorter = drop(keys[one[each]], place), one[each]
    two = np.flatnonzero(losses[one] > 1)
    pairs, pair = spread(sizes[one[two]] * (sizes[one[two]] - 1) // 2)
    begin = (np.cumsum(sizes[one]) - sizes[one])[two]
    shortest = drop(shorter[begin[pairs] + _FRONT[pair]], _BACK[pair])
    return np.concatenate([keys, shorter, shortest]), np.concatenate([rows, of_shorter, one[two[pairs]]])


def spread(counts: Ints) -> tuple[Ints, Ints]:
    """For each of ``counts`` things of every row: the row and the thing's number within it."""
    rows = np.repeat(np.arange(len(counts)), counts)
    return rows, np.arange(len(rows)) - (np.cumsum(counts) - counts)[rows]


def _slots(keys: Keys) -> npt.NDArray[np.uint64]:
    return (keys * _SPREAD) >> np.uint64(64 - _BITS)
