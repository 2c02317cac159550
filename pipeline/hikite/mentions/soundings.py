"""Sound matches by window: the concepts each may be, nearest first, and the signs that it is meant."""

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz.distance import Levenshtein

from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.evidence import SIGNS, Matrix, Vector
from hikite.mentions.exact import Match
from hikite.mentions.hearing import Heard, Sounded
from hikite.mentions.streams import Stream
from hikite.mentions.voices import commonness
from hikite.sounds import squash
from hikite.sounds.skeletons import Ints
from hikite.terms import Name, Terms
from hikite.terms.speech import load_speech

_SEVERAL = 4
_COMMONEST = 12
_FOREIGN = 0.06
_NATIVE = 0.02
# Of names that sound almost alike the one that bouts need oftener leads.
_NEEDED = 0.02
_WIDEST_MARGIN = 0.15
_NEAR = 0.12
# So many words may be said again within one window.
_PERIODS = (1, 2, 3)
Columns = dict[str, Vector]
_CALLS = ("score", "penalty", "stoppage", "result")


@dataclass(frozen=True)
class Soundings:
    """Windows ``first`` to ``stop``, the nearest ``entry`` of each, and a row of ``signs`` for it.

    ``heads`` and ``ends`` bound each window's rows of ``concepts``, ``apart`` and ``entries``, nearest first.
    """

    first: Ints
    stop: Ints
    entry: Ints
    signs: Matrix
    heads: Ints
    ends: Ints
    concepts: Ints
    apart: npt.NDArray[np.float32]
    entries: Ints

    def rivals(self, window: int) -> list[tuple[int, float, int]]:
        """The concept numbers a window may be, their distances and entries, nearest first, four at most."""
        first = int(self.heads[window])
        rows = slice(first, min(int(self.ends[window]), first + _SEVERAL))
        columns = (self.concepts[rows], self.apart[rows], self.entries[rows])
        return list(zip(*(column.tolist() for column in columns), strict=True))


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
        counted = load_speech(native).statements.numbers
        self._counting = self.call | np.array(
            [any(_counts(names[at].form, counted) for at in entry) for entry in heard.names]
        )
        foreign = np.where(self._guest, 0.0, np.where(self._native, _NATIVE, _FOREIGN))
        self._penalty = (foreign - _NEEDED * self._needed / 9).astype(np.float32)
        self._forms = [[names[at].form for at in entry[:3]] for entry in heard.names]
        self._spelt: dict[int, list[tuple[tuple[str, ...], str]]] = {}

    def gather(
        self, stream: Stream, sounded: Sounded, matches: list[Match], near: Neighbourhood
    ) -> Soundings:
        """The windows of one stream, in order."""
        ids = self._heard.vocabulary.numbers(stream.words)
        first, size, concept, entry, distance = self._by_concept(self._likely(sounded, stream, ids))
        window = first * 8 + size
        heads = (
            np.flatnonzero(np.r_[True, window[1:] != window[:-1]]) if len(window) else np.zeros(0, np.int64)
        )
        ends = np.r_[heads[1:], len(window)] if len(heads) else heads
        apart = distance + self._penalty[entry]
        margin = np.full(len(heads), _WIDEST_MARGIN)
        several = np.flatnonzero(ends - heads > 1)
        margin[several] = np.minimum(apart[heads[several] + 1] - apart[heads[several]], _WIDEST_MARGIN)
        start, stop, best = first[heads], first[heads] + size[heads], entry[heads]
        columns: Columns = {
            **self._sound(best, distance[heads], margin),
            **self._wording(stream, start, stop, matches),
            **self._naming(stream, start, stop, best),
            "doing": near.doing(start, stop).astype(np.float64),
            "actor": near.actor(start, stop).astype(np.float64),
            "trade": near.trade(start, stop).astype(np.float64),
        }
        columns |= _joint(columns)
        signs = np.stack([np.asarray(columns[sign], np.float64) for sign in SIGNS], axis=1)
        return Soundings(start, stop, best, signs, heads, ends, concept, apart, entry)

    def _likely(self, found: Sounded, stream: Stream, ids: Ints) -> Sounded:
        """The windows without those that hold a long figure, or a figure for no number of a name, or nothing
        but words said over and over, or that begin inside a word.

        "340 left" and "so 2 to" sound like no name, "2 on 1" does; "ochi ochi" is one name said twice, "he's
        out so" holds no "'s out so".
        """
        figures = np.array([len(word) if word.isdecimal() else 0 for word in stream.words], np.int64)
        behind = found.first + found.size
        kept = _between(figures > 1, found.first, behind) == 0
        kept &= self._counting[found.entry] | (_between(figures, found.first, behind) == 0)
        if stream.clitics:
            kept &= ~np.isin(found.first, stream.clitics)
        for period in _PERIODS:
            same = np.zeros(len(ids), np.bool_)
            same[:-period] = ids[:-period] == ids[period:]
            rest = np.maximum(found.size - period, 0)
            repeated = _between(same, found.first, found.first + rest) == rest
            kept &= (rest == 0) | (found.size % period > 0) | ~repeated
        return Sounded(found.first[kept], found.size[kept], found.entry[kept], found.distance[kept])

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

    def _sound(self, entry: Ints, distance: npt.NDArray[np.float32], margin: Vector) -> Columns:
        """What the sounds say of the nearest name of each window, and what is known of that name."""
        far, sounds = distance.astype(np.float64), np.log(np.maximum(self._heard.lengths[entry], 1))
        return {
            "always": np.ones(len(entry)),
            "distance": far,
            "square": far**2,
            "close": np.maximum(_NEAR - far, 0) / _NEAR,
            "sounds": sounds,
            "long_far": far * sounds,
            "margin": margin * 10,
            "guest": self._guest[entry].astype(np.float64),
            "native": self._native[entry].astype(np.float64),
            "ordinary": self._ordinary[entry],
            "needed": self._needed[entry] / 9,
        }

    def _wording(self, stream: Stream, start: Ints, stop: Ints, matches: list[Match]) -> Columns:
        """What the words of each window say."""
        vocabulary = self._heard.vocabulary
        ids = vocabulary.numbers(stream.words)
        levels = np.minimum(vocabulary.levels[ids], _COMMONEST + 2)
        written = np.zeros(len(ids), np.bool_)
        for match in matches:
            written[match.first : match.stop] = True
        odd = _between(vocabulary.rare[ids], start, stop)
        return {
            "odd": odd.astype(np.float64),
            "plain": (odd == 0).astype(np.float64),
            "common": _between(levels, start, stop) / np.maximum(stop - start, 1) / 10,
            "words": (stop - start).astype(np.float64),
            "opens_weak": (levels[start] >= _COMMONEST).astype(np.float64),
            "closes_weak": (levels[stop - 1] >= _COMMONEST).astype(np.float64),
            "mark": _between(np.array([mark != "" for mark in stream.marks]), start, stop - 1) * 1.0,
            "spelt": (_between(written, start, stop) > 0).astype(np.float64),
        }

    def _naming(self, stream: Stream, start: Ints, stop: Ints, entry: Ints) -> Columns:
        """What the letters say."""
        shares = np.array(
            [
                self._share(best, stream.words[a:b])
                for best, a, b in zip(entry.tolist(), start.tolist(), stop.tolist(), strict=True)
            ]
        ).reshape(-1, 2)
        return {"shared": shares[:, 0], "letters": shares[:, 1]}

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


def _counts(form: str, numbers: Collection[str]) -> bool:
    """Whether a number is part of a name: "two-on-one"."""
    return any(word in numbers or word.isdecimal() for word in form.replace("-", " ").split())


def _joint(columns: Columns) -> Columns:
    """What two signs say together."""
    close, sounds, common = columns["close"], columns["sounds"], columns["common"]
    return {
        "close_odd": close * (columns["odd"] > 0),
        "short_close": close / np.maximum(sounds, 1) ** 2,
        "plain_far": columns["plain"] * columns["distance"],
        "long_common": common * sounds,
        "words_common": columns["words"] * common,
    }


def _between(values: npt.NDArray[np.generic], start: Ints, stop: Ints) -> npt.NDArray[np.int64]:
    sums = np.concatenate([[0], np.cumsum(values)]).astype(np.int64)
    return sums[stop] - sums[start]


def _parts(form: str) -> tuple[tuple[str, ...], str]:
    """The words of a form that are long enough to tell something, and all its letters."""
    parts = tuple(squash(part) for part in form.replace("-", " ").split())
    return tuple(part for part in parts if len(part) > 2), "".join(parts) or "-"
