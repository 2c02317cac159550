"""Word windows that share a sound key with a name: few enough to be weighed one by one."""

from collections.abc import Iterator

import numpy as np

from hikite.sounds.skeletons import SKELETONS, TAG, Bits, Ints, Keys, Sizes, drop

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_BITS, _ROUGH_BITS = 18, 19
_FRONT, _BACK = np.tril_indices(16, -1)
# Windows of a class or two fewer or more than any entry may still be one.
_BESIDE = 2
_WIDEST_KEY = 96


class KeyTable:
    """Entries of an index by the keys of every skeleton."""

    def __init__(self, readings: list[str]) -> None:
        sizes = range(_WIDEST_KEY)
        self._lost = np.array([[one.lost(size) for size in sizes] for one in SKELETONS], np.uint8)
        bounds = [(one.shortest - _BESIDE, one.longest + _BESIDE) for one in SKELETONS]
        self._able = np.array([[low <= size <= high for size in sizes] for low, high in bounds])
        keys, entries = self._of_entries(readings)
        order = np.lexsort((entries, keys))
        keys, entries = keys[order], entries[order]
        new = np.append(True, (keys[1:] != keys[:-1]) | (entries[1:] != entries[:-1]))
        every, self.entries = keys[new], entries[new]
        kept, first = np.unique(every, return_index=True)
        ends = np.append(first[1:], len(every))
        by_slot = np.argsort(_slots(kept, _BITS), kind="stable")
        # One row more than keys, so that a look past the last slot finds a key that no word has.
        self._keys = np.append(kept[by_slot], ~np.uint64(0))
        self.first = np.append(first[by_slot], 0).astype(np.int64)
        self.counts = np.append((ends - first)[by_slot], 0).astype(np.int64)
        self._build()

    def _of_entries(self, readings: list[str]) -> tuple[Keys, Ints]:
        """Every key of every entry, and the entry of each."""
        found = [
            (key << TAG | number, size, number, entry)
            for number, skeleton in enumerate(SKELETONS)
            for entry, (key, size) in enumerate(map(skeleton.key, readings))
            if skeleton.shortest <= size <= skeleton.longest
        ]
        keys = np.array([key for key, *_ in found], np.uint64)
        sizes, which, entry = np.array([rest for _, *rest in found], np.int64).reshape(-1, 3).T
        every, rows = zip(*shortened(keys, sizes, self._lost[which, sizes]), strict=True)
        return np.concatenate(every), entry[np.concatenate(rows)]

    def _build(self) -> None:
        slots = _slots(self._keys[:-1], _BITS)
        self._slot = np.full(1 << _BITS, len(slots), np.int32)
        self._slot[slots[::-1]] = np.arange(len(slots), dtype=np.int32)[::-1]
        # A smaller table that stays in the processor's cache turns most keys away.
        self._seen = np.zeros(1 << _ROUGH_BITS, np.bool_)
        self._seen[_slots(self._keys[:-1], _ROUGH_BITS)] = True
        self._crowd = int(np.bincount(slots).max(initial=1))

    def __getstate__(self) -> dict[str, object]:
        """All but the large tables, which are sooner made from the keys than read."""
        return {name: value for name, value in self.__dict__.items() if name not in ("_slot", "_seen")}

    def __setstate__(self, state: dict[str, object]) -> None:
        self.__dict__.update(state)
        self._build()

    def look(self, keys: Keys, sizes: Sizes, losses: Sizes) -> tuple[Ints, Ints]:
        """Windows that share a key with entries: the windows and the keys' numbers.

        The entries of a key are ``counts`` many from ``first`` on. ``keys`` and ``sizes`` are by skeleton and
        window; up to ``losses`` classes of a window are left out.
        """
        skeleton = np.arange(len(SKELETONS))[:, None]
        which, window = np.nonzero(self._able[skeleton, sizes])
        keys, counts = keys[which, window], sizes[which, window].astype(np.int64)
        losses = np.minimum(self._lost[which, counts], losses[window])
        found = [self._likely(*some) for some in shortened(keys, counts, losses)]
        row, at = self._found(
            np.concatenate([keys for keys, _ in found]), np.concatenate([rows for _, rows in found])
        )
        return window[row], at

    def united(self, bits: Bits) -> Bits:
        """The bits of all entries of each key, given those of ``entries``."""
        order = np.argsort(self.first[:-1])
        found = np.zeros(len(self.first), np.uint64)
        found[order] = np.bitwise_or.reduceat(bits, self.first[order])
        return found

    def _likely(self, keys: Keys, rows: Ints) -> tuple[Keys, Ints]:
        """The keys that the table may hold, and their rows."""
        at = np.flatnonzero(self._seen[_slots(keys, _ROUGH_BITS)])
        return keys[at], rows[at]

    def _found(self, keys: Keys, rows: Ints) -> tuple[Ints, Ints]:
        """The rows of the keys that the table holds, and where it holds them."""
        at = self._slot[_slots(keys, _BITS)].astype(np.int64)
        for _ in range(self._crowd - 1):
            other = np.flatnonzero(self._keys[at] != keys)
            at[other] = np.minimum(at[other] + 1, len(self._keys) - 1)
        sure = np.flatnonzero(self._keys[at] == keys)
        return rows[sure], at[sure]


def shortened(keys: Keys, sizes: Ints, losses: Sizes) -> Iterator[tuple[Keys, Ints]]:
    """The keys as they are, then with one and two classes left out as far as permitted, and their rows."""
    yield keys, np.arange(len(keys))
    room = np.where(losses > 0, sizes, 0).astype(np.uint8)
    rows = np.argsort(room, kind="stable")[::-1]
    ordered = keys[rows]
    longer = np.cumsum(np.bincount(room)[:0:-1])[::-1]
    for place, count in enumerate(longer.tolist()):
        yield drop(ordered[:count], place), rows[:count]
    two = np.flatnonzero(losses > 1)
    each, pair = spread(sizes[two] * (sizes[two] - 1) // 2)
    yield drop(drop(keys[two[each]], _FRONT[pair]), _BACK[pair]), two[each]


def spread(counts: Ints) -> tuple[Ints, Ints]:
    """For each of ``counts`` things of every row: the row and the thing's number within it."""
    rows = np.repeat(np.arange(len(counts)), counts)
    return rows, np.arange(len(rows)) - np.repeat(np.cumsum(counts) - counts, counts)


def _slots(keys: Keys, bits: int) -> Ints:
    """A place in a table of so many bits for each key."""
    slots: Ints = ((keys * _SPREAD) >> np.uint64(64 - bits)).view(np.int64)
    return slots
