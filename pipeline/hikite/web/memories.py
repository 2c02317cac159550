"""What was worked out and is still true, kept while the room is open."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

Kept = TypeVar("Kept")


class Memory(Generic[Kept]):
    """The last things worked out, so many at most; a key tells all that a thing was worked out from."""

    def __init__(self, most: int) -> None:
        self._most, self._kept, self._lock = most, OrderedDict[Hashable, Kept](), Lock()

    def of(self, key: Hashable, make: Callable[[], Kept]) -> Kept:
        """What is kept under the key; made now, and kept, where nothing is."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = make()
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return made
