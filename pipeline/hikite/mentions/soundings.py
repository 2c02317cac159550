"""Sound matches by window: the concepts each may be, nearest first, and the signs that it is meant."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Levenshtein

from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.evidence import SIGNS, Matrix
from hikite.mentions.exact import Match
from hikite.mentions.hearing import Heard, Sounded
from hikite.mentions.ranges import between, repeated, summed
from hikite.mentions.streams import Stream
from hikite.mentions.voices import commonness
from hikite.sounds import squash
from hikite.sounds.pairs import load_pairs
from hikite.sounds.skeletons import Ints
from hikite.terms import Name, Terms

_SEVERAL = 3
_COMMONEST = 12
_FOREIGN = 0.06
_NATIVE = 0.02
_WIDEST_MARGIN, _WIDEST_LAG = 0.15, 0.08
_NEAR = 0.12
_JOLT = 7
_CALLS = ("score", "penalty", "stoppage", "result")


@dataclass(frozen=True)
class Soundings:
    """One row a window and concept, in order: words ``first`` to ``stop``, the nearest ``entry``, its signs.

    ``concepts`` are numbers in ``Gatherer.concepts``; of a window's concepts the nearest stands first.
    """

    first: Ints
    stop: Ints
    concepts: Ints
    entry: Ints
    apart: npt.NDArray[np.float32]
    signs: Matrix


class Gatherer:
    """Turns the raw hits of an index into windows with signs; ``call`` flags the entries a referee calls."""

    def __init__(
        self, terms: Terms, names: tuple[Name, ...], heard: Heard, guests: tuple[str, ...], native: str
    ) -> None:
        self._heard = heard
        self.concepts = sorted({name.concept for name in names})
        numbers = {concept: number for number, concept in enumerate(self.concepts)}
        of_entry = [sorted({numbers[names[at].concept] for at in entry}) for entry in heard.names]
        self._first = np.concatenate([[0], np.cumsum([len(concepts) for concepts in of_entry])])
        self._concepts = np.array([concept for concepts in of_entry for concept in concepts], np.int64)
        self._guest = np.array([any(names[at].language in guests for at in entry) for entry in heard.names])
        self._native = np.array([any(names[at].language == native for at in entry) for entry in heard.names])
        self.call = np.array(
            [terms.concepts[names[entry[0]].concept].kind in _CALLS for entry in heard.names]
        )
        self._penalty = np.where(self._guest, 0.0, np.where(self._native, _NATIVE, _FOREIGN)).astype(
            np.float32
        )
        self._ordinary = np.array(
            [
                commonness(names[entry[0]].form.split(), heard.ear) / 10
                if names[entry[0]].language == native
                else 0
                for entry in heard.names
            ]
        )
        self._needed = np.array(
            [
                max(
                    (need for at in entry for need in terms.concepts[names[at].concept].weight.values()),
                    default=0,
                )
                for entry in heard.names
            ]
        )
        self._forms = [[names[at].form for at in entry[:3]] for entry in heard.names]
        self._kinds = np.array([terms.concepts[names[entry[0]].concept].kind for entry in heard.names])
        self._pairs = load_pairs(native)
        self._spelt: dict[int, list[tuple[tuple[str, ...], str]]] = {}

    def gather(
        self, stream: Stream, sounded: Sounded, matches: list[Match], near: Neighbourhood
    ) -> Soundings:
        """The windows of one stream, in order."""
        first, size, concept, entry, distance = self._by_concept(sounded)
        window = first * 8 + size
        heads = np.flatnonzero(np.append(True, window[1:] != window[:-1])[: len(window)])
        ends = np.append(heads[1:], len(window))[: len(heads)]
        place = np.arange(len(window)) - np.repeat(heads, ends - heads)
        apart = distance + self._penalty[entry]
        lead = np.repeat(heads, ends - heads)
        # How much farther the next concept is, or for a later one how much nearer the first.
        second = np.minimum(lead + 1, len(window) - 1)
        margin = np.where(
            place > 0,
            apart[lead] - apart,
            np.where(np.repeat(ends - heads, ends - heads) > 1, apart[second] - apart, _WIDEST_MARGIN),
        )
        rows = np.flatnonzero((place < _SEVERAL) & (margin >= -_WIDEST_LAG))
        start, stop, best = first[rows], first[rows] + size[rows], entry[rows]
        near_enough = np.minimum(margin[rows], _WIDEST_MARGIN).astype(np.float64)
        signs = self._signs(stream, start, stop, best, distance[rows], near_enough, matches, near)
        return Soundings(start, stop, concept[rows], best, apart[rows], signs)

    def _by_concept(self, found: Sounded) -> tuple[Ints, Ints, Ints, Ints, npt.NDArray[np.float32]]:
        """One row a window and concept, sorted by window and then by distance."""
        counts = self._first[found.entry + 1] - self._first[found.entry]
        row = np.repeat(np.arange(len(found.entry)), counts)
        inside = np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts)
        concept = self._concepts[self._first[found.entry][row] + inside]
        first, size, entry, distance = (
            found.first[row],
            found.size[row],
            found.entry[row],
            found.distance[row],
        )
        # Of names that sound the same the one best attested leads, whichever words were met before.
        order = np.lexsort((entry, distance, concept, size, first))
        window = (first * 8 + size)[order]
        apart = np.ones(len(order), np.bool_)
        apart[1:] = (window[1:] != window[:-1]) | (concept[order][1:] != concept[order][:-1])
        kept = order[apart]
        kept = kept[np.lexsort((distance[kept] + self._penalty[entry[kept]], size[kept], first[kept]))]
        return first[kept], size[kept], concept[kept], entry[kept], distance[kept]

    def _signs(
        self,
        stream: Stream,
        start: Ints,
        stop: Ints,
        entry: Ints,
        distance: npt.NDArray[np.float32],
        margin: npt.NDArray[np.float64],
        matches: list[Match],
        near: Neighbourhood,
    ) -> Matrix:
        vocabulary = self._heard.vocabulary
        ids = vocabulary.numbers(stream.words)
        levels = np.minimum(vocabulary.levels[ids], _COMMONEST + 2)
        size = stop - start
        sounds = np.log(np.maximum(self._heard.lengths[entry], 1))
        odd = between(vocabulary.rare[ids], start, stop)
        common = between(levels, start, stop) / np.maximum(size, 1) / 10
        marks = between(np.array([mark != "" for mark in stream.marks]), start, stop - 1)
        written = np.zeros(len(ids), np.bool_)
        for match in matches:
            written[match.first : match.stop] = True
        shares = [
            self._share(best, stream.words[a:b])
            for best, a, b in zip(entry.tolist(), start.tolist(), stop.tolist(), strict=True)
        ]
        surprise = self._surprise(stream, ids)
        kinds = self._kinds[entry].tolist()
        far, plain = distance.astype(np.float64), (odd == 0).astype(np.float64)
        close = np.maximum(_NEAR - far, 0) / _NEAR
        columns: dict[str, npt.ArrayLike] = {
            "always": np.ones(len(start)),
            "distance": far,
            "square": far**2,
            "close": close,
            "close_odd": close * (odd > 0),
            "short_close": close / np.maximum(sounds, 1) ** 2,
            "sounds": sounds,
            "long_far": far * sounds,
            "odd": odd,
            "plain": plain,
            "plain_far": plain * far,
            "common": common,
            "long_common": common * sounds,
            "words": size,
            "words_common": size * common,
            "opens_weak": levels[start] >= _COMMONEST,
            "closes_weak": levels[stop - 1] >= _COMMONEST,
            "mark": marks,
            "margin": margin * 10,
            "second": margin < 0,
            "doing": near.doing(start, stop),
            "actor": near.actor(start, stop),
            "trade": near.trade(start, stop),
            "guest": self._guest[entry],
            "native": self._native[entry],
            "ordinary": self._ordinary[entry],
            "needed": self._needed[entry] / 9,
            "shared": [share for share, _ in shares],
            "letters": [letters for _, letters in shares],
            "spelt": between(written, start, stop) > 0,
            "cost": far * (self._heard.lengths[entry] + 1),
            "cost_odd": far * (self._heard.lengths[entry] + 1) * (odd > 0),
            "surprise": summed(surprise, start, stop + 1) / 10,
            "jolts": between(surprise >= _JOLT, start, stop + 1),
            "surprise_far": summed(surprise, start, stop + 1) / 10 * far,
            "pointed": near.pointed(start),
            "led": near.led(start),
            "set": near.set(start),
            "fits": near.fits(start, kinds),
            "ends": stream.breaks[stop],
            "alone": stream.breaks[stop] & stream.breaks[start],
            "opens_article": near.pointed(start + 1),
            "proper": between(stream.proper, start, stop) / np.maximum(size, 1),
            "digits": between(self._digits(stream), start, stop) / np.maximum(size, 1),
            "repeated": repeated(ids, start, size),
        }
        return np.stack([np.asarray(columns[sign], np.float64) for sign in SIGNS], axis=1)

    def _surprise(self, stream: Stream, ids: Ints) -> npt.NDArray[np.float64]:
        """How unlikely each word is behind the one in front, and 0 behind the last."""
        vocabulary = self._heard.vocabulary
        if self._pairs is None:
            return np.zeros(len(ids) + 1)
        found = self._pairs.surprise(vocabulary.places[ids], vocabulary.levels[ids])
        fresh = np.append(True, stream.run[1:] != stream.run[:-1])
        found[fresh] = 0.0
        return np.append(found, 0.0)

    def _digits(self, stream: Stream) -> npt.NDArray[np.bool_]:
        return np.fromiter((word.isdecimal() for word in stream.words), np.bool_, len(stream.words))

    def _share(self, entry: int, words: tuple[str, ...]) -> tuple[float, float]:
        """The share of the name's letters in words found whole, and the likeness of all letters."""
        spelt = self._spelt.get(entry)
        if spelt is None:
            spelt = self._spelt[entry] = [_parts(form) for form in self._forms[entry]]
        best, joined = (0.0, 0.0), "".join(words)
        for parts, whole in spelt:
            shared = sum([len(part) for part in parts if part in words])
            best = max(best, (shared / len(whole), Levenshtein.normalized_similarity(joined, whole)))
        return best


def _parts(form: str) -> tuple[tuple[str, ...], str]:
    """The words of a form that are long enough to tell something, and all its letters."""
    parts = tuple(squash(part) for part in form.replace("-", " ").split())
    return tuple(part for part in parts if len(part) > 2), "".join(parts) or "-"
