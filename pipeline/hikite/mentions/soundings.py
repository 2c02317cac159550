"""Sound matches by window: the concepts each may be, nearest first, and the signs that it is meant."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.evidence import SIGNS, Matrix, Vector
from hikite.mentions.exact import Match
from hikite.mentions.hearing import Heard, Sounded
from hikite.mentions.plain import Plain
from hikite.mentions.repeats import again, between, likely
from hikite.mentions.slots import KINDS, Slots, kind_of
from hikite.mentions.streams import Stream
from hikite.mentions.voices import commonness
from hikite.sounds import squash
from hikite.sounds.skeletons import Ints
from hikite.terms import Name, Terms

_SEVERAL = 4
_COMMONEST = 12
_FOREIGN = 0.06
_NATIVE = 0.02
# Of names that sound almost alike the one that bouts need oftener leads.
_NEEDED = 0.02
_NEAR = 0.12
Columns = dict[str, npt.NDArray[np.generic]]
_CALLS = ("score", "penalty", "stoppage", "result")


@dataclass(frozen=True)
class Soundings:
    """Windows ``first`` to ``stop`` in order, and what each may be.

    The rows from ``heads`` to ``ends`` are a window's: ``concepts`` by number, nearest first and no more than
    four, each with its distance as ranked (``apart``), its entry in the index and its ``signs``; ``window``
    is the number of the window each row belongs to.
    """

    first: Ints
    stop: Ints
    heads: Ints
    ends: Ints
    window: Ints
    concepts: Ints
    apart: npt.NDArray[np.float32]
    entries: Ints
    signs: Matrix

    def rivals(self, window: int) -> list[tuple[int, float, int]]:
        """The concept numbers a window may be, their distances and entries, nearest first."""
        rows = slice(int(self.heads[window]), int(self.ends[window]))
        columns = (self.concepts[rows], self.apart[rows], self.entries[rows])
        return list(zip(*(column.tolist() for column in columns), strict=True))


class Gatherer:
    """Turns the raw hits of an index into windows with signs; ``call`` flags the entries a referee calls."""

    def __init__(
        self,
        terms: Terms,
        names: tuple[Name, ...],
        heard: Heard,
        slots: Slots,
        plain: Plain,
        guests: tuple[str, ...],
        native: str,
    ) -> None:
        self._heard, self.slots, self.plain = heard, slots, plain
        self.concepts = sorted({name.concept for name in names})
        numbers = {concept: number for number, concept in enumerate(self.concepts)}
        self._kinds = np.array([kind_of(terms.concepts[concept].kind) for concept in self.concepts])
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
        foreign = np.where(self._guest, 0.0, np.where(self._native, _NATIVE, _FOREIGN))
        self._penalty = (foreign - _NEEDED * self._needed / 9).astype(np.float32)
        self._letters = np.array([squash(names[entry[0]].form) or "-" for entry in heard.names], np.object_)

    def gather(
        self, stream: Stream, sounded: Sounded, matches: list[Match], near: Neighbourhood
    ) -> Soundings:
        """The windows of one stream, in order."""
        ids = self._heard.vocabulary.numbers(stream.words)
        first, size, concept, entry, distance = self._by_concept(likely(sounded, stream, ids))
        window = first * 8 + size
        new = np.append(True, window[1:] != window[:-1])[: len(window)]
        rank = np.arange(len(window)) - np.flatnonzero(new)[np.cumsum(new) - 1]
        kept = np.flatnonzero(rank < _SEVERAL)
        first, size, concept, entry, rank = (column[kept] for column in (first, size, concept, entry, rank))
        distance = distance[kept]
        heads = np.flatnonzero(rank == 0)
        ends = np.append(heads[1:], len(rank))[: len(heads)]
        of = np.cumsum(rank == 0) - 1
        start, stop = first[heads], first[heads] + size[heads]
        wording: Columns = {
            **self._wording(stream, start, stop, ids, matches),
            "surprise": strange(self.plain, stream, start, stop),
            "doing": near.doing(start, stop),
            "actor": near.actor(start, stop),
            "trade": near.trade(start, stop),
        }
        columns: Columns = {name: column[of] for name, column in wording.items()}
        columns |= self._sound(entry, distance, rank)
        columns |= self.placed(self.slots, stream, start[of], stop[of], concept)
        columns["letters"] = self._likeness(stream, start[of], stop[of], entry)
        columns |= _joint(columns)
        signs = np.stack([np.asarray(columns[sign], np.float64) for sign in SIGNS], axis=1)
        apart = distance + self._penalty[entry]
        return Soundings(start, stop, heads, ends, of, concept, apart, entry, signs)

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

    def _sound(self, entry: Ints, distance: npt.NDArray[np.float32], rank: Ints) -> Columns:
        """What the sounds say of each name, and what is known of that name."""
        far, sounds = distance.astype(np.float64), self._heard.lengths[entry]
        long = np.log(np.maximum(sounds, 1))
        return {
            "always": np.ones(len(entry)),
            "distance": far,
            "square": far**2,
            "close": np.maximum(_NEAR - far, 0) / _NEAR,
            "cost": far * (sounds + 1),
            "sounds": long,
            "length": sounds / 10,
            "long_far": far * long,
            "later": rank,
            "guest": self._guest[entry],
            "native": self._native[entry],
            "ordinary": self._ordinary[entry],
            "needed": self._needed[entry] / 9,
        }

    def _wording(self, stream: Stream, start: Ints, stop: Ints, ids: Ints, matches: list[Match]) -> Columns:
        """What the words of each window say."""
        vocabulary = self._heard.vocabulary
        levels = vocabulary.levels[ids]
        written = np.zeros(len(ids), np.bool_)
        for match in matches:
            written[match.first : match.stop] = True
        odd = between(vocabulary.rare[ids], start, stop)
        before, behind = stream.breaks[start], stream.breaks[stop]
        return {
            "odd": odd,
            "plain": odd == 0,
            "words": stop - start,
            "opens_weak": levels[start] >= _COMMONEST,
            "closes_weak": levels[stop - 1] >= _COMMONEST,
            "mark": between(np.array([mark != "" for mark in stream.marks]), start, stop - 1),
            "spelt": between(written, start, stop) > 0,
            "halt_before": before,
            "halt_behind": behind,
            "alone": before & behind,
            "again": again(ids, start, stop),
        }

    def placed(self, slots: Slots, stream: Stream, start: Ints, stop: Ints, concept: Ints) -> Columns:
        """How much the words around speak for a name of this kind just here."""
        kind = self._kinds[concept]
        before, behind = slots.look(stream)
        return {
            "call": kind == KINDS.index("call"),
            "grip": kind == KINDS.index("grip"),
            "before": before[start, kind],
            "behind": behind[stop, kind],
        }

    def _likeness(self, stream: Stream, start: Ints, stop: Ints, entry: Ints) -> Vector:
        """How alike the letters of the words and of the names are."""
        joined, starts = stream.joined, stream.starts
        spans = zip(starts[start].tolist(), starts[stop].tolist(), strict=True)
        words = [joined[one:two] for one, two in spans]
        if not words:
            return np.zeros(0)
        alike = process.cpdist(
            words, self._letters[entry], scorer=Levenshtein.normalized_similarity, dtype=np.float32
        )
        return np.asarray(alike, np.float64)


def strange(plain: Plain, stream: Stream, start: Ints, stop: Ints) -> Vector:
    """How surprising the words of each window are in plain talk."""
    sums = plain.surprises(stream)
    return np.asarray((sums[stop] - sums[start]) / 2, np.float64)


def _joint(columns: Columns) -> Columns:
    """What two signs say together."""
    close, sounds, plain, far = (
        np.asarray(columns[sign], np.float64) for sign in ("close", "sounds", "plain", "distance")
    )
    return {
        "close_odd": close * (1 - plain),
        "short_close": close / np.maximum(sounds, 1) ** 2,
        "plain_far": plain * far,
    }
