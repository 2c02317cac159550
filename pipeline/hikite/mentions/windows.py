"""Every window of one to six words, with the sound keys of each, made from arrays of words at once."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from hikite.mentions.candidates import spread
from hikite.mentions.vocabularies import Traits, Vocabulary
from hikite.sounds.skeletons import Bits, Flags, Ints, Keys, Sizes, border, join, last, tagged

_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_WIDEST = 6
Array = npt.NDArray[Any]


@dataclass(frozen=True)
class Windows:
    """Distinct windows: a place ``first`` where the words stand, their number, which ``reading``.

    ``keys`` and ``sizes`` are by skeleton and window; ``bits`` are the sounds side by side, ``sounds`` their
    number, and ``odd`` tells whether a word that plain speech seldom holds is among them. ``places`` are all
    places in the text by window; those of window n are from ``starts[n]`` up to ``starts[n + 1]``.
    """

    first: Ints
    size: Ints
    reading: Ints
    keys: Keys
    sizes: Sizes
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
    traits, words = vocabulary.traits, (ids + 1).astype(np.uint64)
    rare, twofold = vocabulary.rare[ids], vocabulary.twofold[ids]
    lengths, bits = traits.sounds[:, ids], traits.bits[:, ids]
    same = np.append(True, run[1:] == run[:-1])
    whole = _grown(np.ones_like(same), lambda before, at: before & same[at])
    two = _grown(twofold, lambda before, at: before | twofold[at])
    sounds = _grown(lengths, lambda before, at: before + lengths[:, at])
    marks = _grown(words * _SPREAD, lambda before, at: (before ^ words[at]) * _SPREAD)
    fit = (sounds >= least) & (sounds <= most) & whole
    fit[1] &= two
    rows = np.flatnonzero(fit)
    order, heads = _alike(np.stack([marks, marks ^ np.uint64(1)]).ravel()[rows])
    rows = rows[order]
    kept = rows[heads]
    odd = _grown(rare, lambda before, at: before | rare[at])
    met = bits | _borders(traits, ids)
    keys, sizes = _keys(traits, ids)
    reading, size, first = np.unravel_index(kept, fit.shape)
    return Windows(
        first,
        size + 1,
        reading,
        tagged(keys.reshape(len(keys), -1)[:, kept]),
        sizes.reshape(len(sizes), -1)[:, kept],
        _grown(bits, lambda before, at: before | met[:, at]).ravel()[kept],
        sounds.ravel()[kept],
        odd[size, first],
        rows % len(ids),
        np.append(heads, len(rows)),
    )


def _grown(alone: Array, longer: Callable[[Array, slice], Array]) -> Array:
    """What is known of windows by size and first word: of a word ``alone``, then of one more each time.

    ``longer`` gives it from what is known of a word less, for the windows that end with the words of a slice.
    """
    count = alone.shape[-1]
    widest = min(_WIDEST, count)
    found = np.zeros((*alone.shape[:-1], widest, count), alone.dtype)
    found[..., 0, :] = alone
    for size in range(1, widest):
        found[..., size, :-size] = longer(found[..., size - 1, :-size], slice(size, None))
    return found


def _alike(marks: Keys) -> tuple[Ints, Ints]:
    """The order in which like marks stand together, and where each distinct one begins."""
    order = np.argsort(marks)
    ordered = marks[order]
    return order, np.flatnonzero(np.append(True, ordered[1:] != ordered[:-1])[: len(order)])


def _keys(traits: Traits, ids: Ints) -> tuple[Keys, Sizes]:
    """The keys and key sizes of all windows; a class that closes one word and opens the next counts once."""
    keys, sizes = traits.keys[..., ids], traits.sizes[..., ids]
    opening, closing = traits.opening[..., ids], traits.closing[..., ids]
    later = sizes.copy()
    later[..., 1:] -= (opening[..., 1:] == closing[..., :-1]) & (opening[..., 1:] > 0)
    following, shifts = last(keys, later), later.astype(np.uint64)
    return (
        _grown(keys, lambda before, at: join(before, following[..., at], shifts[..., at])),
        _grown(sizes, lambda before, at: before + later[..., at]),
    )


def _borders(traits: Traits, ids: Ints) -> Bits:
    """The bit of the two sounds that meet at each word and the one before it."""
    met = np.zeros((2, len(ids)), np.uint64)
    pairs = border(traits.back[:, ids[:-1]], traits.front[:, ids[1:]])
    np.left_shift(np.uint64(1), pairs.astype(np.uint64), out=met[:, 1:])
    return met
