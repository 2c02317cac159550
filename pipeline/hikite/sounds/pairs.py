"""How surprising a word is behind the one in front of it, in plain writing."""

import gzip
from functools import cache

import numpy as np
import numpy.typing as npt

from hikite.terms.places import lexicon_root

Ints = npt.NDArray[np.int64]
# Pairs are numbered by both words' numbers, the first one's times this.
PLACES = 1 << 17
# The level of all words together, and of the rarest pair that is listed.
_WHOLE, _LISTED = 16.0, 7.0


class Pairs:
    """Pairs of words that plain writing often holds; ``levels`` are in half decades of their counts."""

    def __init__(self, pairs: Ints, levels: npt.NDArray[np.uint8]) -> None:
        self._pairs = np.append(pairs, PLACES * PLACES)
        self._levels = np.append(levels, np.uint8(0))

    def surprise(self, numbers: Ints, levels: Ints) -> npt.NDArray[np.float64]:
        """Of each word how unlikely it is behind the word in front, in half decades; the first one alone.

        ``numbers`` are the words' places in the list of words (-1: none), ``levels`` how common they are.
        """
        alone = np.asarray(_WHOLE - levels, np.float64)
        found = alone.copy()
        if len(numbers) < 2:
            return found
        known = (numbers[1:] >= 0) & (numbers[:-1] >= 0)
        pair = np.where(known, numbers[:-1] * PLACES + numbers[1:], 0)
        at = np.searchsorted(self._pairs, pair)
        met = known & (self._pairs[at] == pair)
        # A pair that is not listed is at most as common as the rarest that is.
        least = np.maximum(levels[:-1] - _LISTED, alone[1:])
        found[1:] = np.where(met, levels[:-1] - self._levels[at], least)
        return np.asarray(np.maximum(found, 0), np.float64)


@cache
def load_pairs(language: str) -> Pairs | None:
    """The pairs of one language; None where it has no list of them."""
    file = lexicon_root() / language / "pairs.gz"
    if not file.is_file():
        return None
    data = gzip.decompress(file.read_bytes())
    count = int.from_bytes(data[:4], "little")
    packed = np.frombuffer(data[4 : len(data) - count], np.uint8).astype(np.int64)
    ends = np.flatnonzero(packed < 128)
    starts = np.append(0, ends[:-1] + 1)
    place = np.arange(len(packed)) - np.repeat(starts, ends - starts + 1)
    gaps = np.add.reduceat((packed & 127) << (7 * place), starts)
    return Pairs(np.cumsum(gaps), np.frombuffer(data[len(data) - count :], np.uint8))
