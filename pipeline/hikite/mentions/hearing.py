"""Names found by their sound: windows of words that share a key with a name, weighed one by one."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.candidates import KeyTable, spread
from hikite.mentions.streams import Stream
from hikite.mentions.vocabularies import Vocabulary
from hikite.mentions.windows import Windows, windows
from hikite.sounds import Ear
from hikite.sounds.distances import Codes, Floats, coded, load_costs
from hikite.sounds.skeletons import Ints, doubled, neighbours, outlined
from hikite.terms import Name

_OVERLAP = 6
_SHORTEST, _LONGEST = 3, 22
_AT_ONCE = 10_000
# Longer windows are odd too often by one word that stands beside a name; they must come nearer.
_FEW = 4


@dataclass(frozen=True)
class Limits:
    """How near a window must come to a name: share of neighbouring sounds, rough likeness, distance.

    ``losses`` is how many classes of its key may be missing.
    """

    shared: float
    rough: float
    distance: float
    losses: int


# Windows of everyday words alone are seldom a name in disguise; they must come nearer than odd ones.
PLAIN = Limits(shared=0.64, rough=0.66, distance=0.27, losses=1)
ODD = Limits(shared=0.4, rough=0.55, distance=0.37, losses=2)


@dataclass(frozen=True)
class Sounded:
    """Parallel arrays: window ``first``/``size``, the entry it may be and their distance per sound."""

    first: Ints
    size: Ints
    entry: Ints
    distance: Floats


class Heard:
    """An index of the names' sounds; ``names`` lists the name numbers of each entry."""

    def __init__(self, names: tuple[Name, ...], ear: Ear, language: str) -> None:
        self.ear = ear
        self.readings, self.names = _entries(names, ear)
        self.vocabulary = Vocabulary(ear)
        self.lengths = np.array([len(reading) for reading in self.readings], np.int64)
        self._costs = load_costs(language)
        self._codes, self._code_sizes = coded(self.readings)
        bits = np.array([neighbours(reading) for reading in self.readings], np.uint64)
        counts = np.bitwise_count(bits)
        self._enough = np.stack([np.ceil(limit.shared * counts) for limit in (PLAIN, ODD)]).astype(np.uint8)
        self._rough = np.array([doubled(reading) for reading in self.readings], np.object_)
        self._table = KeyTable(self.readings)
        self._bits = bits[self._table.entries]
        self._any = self._table.united(self._bits)

    def find(self, stream: Stream) -> Sounded:
        """Every window that sounds like a name, with each name it may be."""
        if self.vocabulary.full:
            self.vocabulary = Vocabulary(self.ear)
        found, ids = [], self.vocabulary.numbers(stream.words)
        for start in range(0, len(stream.words), _AT_ONCE):
            stop = start + _AT_ONCE + _OVERLAP
            part = self._part(ids[start:stop], stream.run[start:stop])
            mine = part.first < _AT_ONCE
            found.append(
                Sounded(part.first[mine] + start, part.size[mine], part.entry[mine], part.distance[mine])
            )
        return Sounded(
            np.concatenate([part.first for part in found]),
            np.concatenate([part.size for part in found]),
            np.concatenate([part.entry for part in found]),
            np.concatenate([part.distance for part in found]),
        )

    def _part(self, ids: Ints, run: Ints) -> Sounded:
        group = windows(self.vocabulary, ids, run, _SHORTEST, _LONGEST + 6)
        row, entry = self._candidates(group)
        row, entry = self._roughly(group, ids, row, entry)
        distance = self._weighed(group, ids, row, entry)
        near = distance <= np.where(group.odd[row], ODD.distance, PLAIN.distance)
        row, entry, distance = row[near], entry[near], distance[near]
        index, place = group.everywhere(row)
        return Sounded(place, group.size[row][index], entry[index], distance[index])

    def _candidates(self, group: Windows) -> tuple[Ints, Ints]:
        """Windows and the entries that share a key and enough neighbouring sounds."""
        odd = group.odd.astype(np.intp)
        losses = np.where(group.odd & (group.size <= _FEW), ODD.losses, PLAIN.losses).astype(np.uint8)
        least = np.where(group.odd, ODD.shared, PLAIN.shared) * np.bitwise_count(group.bits)
        enough = np.ceil(least).astype(np.uint8)
        window, key = self._table.look(group.keys, group.sizes, losses)
        some = np.flatnonzero(np.bitwise_count(group.bits[window] & self._any[key]) >= enough[window])
        window, key = window[some], key[some]
        every, inside = spread(self._table.counts[key])
        at = self._table.first[key][every] + inside
        shared = np.bitwise_count(group.bits[window][every] & self._bits[at])
        much = np.flatnonzero(shared >= enough[window][every])
        row, entry, shared = window[every[much]], self._table.entries[at[much]], shared[much]
        long, short = group.sounds[row], self.lengths[entry]
        near = np.abs(long - short) * 3 <= np.maximum(long, short)
        near &= shared >= self._enough[odd[row], entry]
        pairs = np.sort(row[near] * len(self.readings) + entry[near])
        pairs = pairs[np.append(True, pairs[1:] != pairs[:-1])[: len(pairs)]]
        return pairs // len(self.readings), pairs % len(self.readings)

    def _roughly(self, group: Windows, ids: Ints, row: Ints, entry: Ints) -> tuple[Ints, Ints]:
        """The pairs that a plain edit distance leaves."""
        if not len(row):
            return row, entry
        used, index = _used(row)
        rough = self._doubled(group, ids, used)
        alike = process.cpdist(
            rough[index],
            self._rough[entry],
            scorer=Levenshtein.normalized_similarity,
            score_cutoff=min(ODD.rough, PLAIN.rough),
            dtype=np.float32,
        )
        good = alike >= np.where(group.odd[row], ODD.rough, PLAIN.rough)
        return row[good], entry[good]

    def _weighed(self, group: Windows, ids: Ints, row: Ints, entry: Ints) -> Floats:
        """The weighted distance of each pair, per sound."""
        if not len(row):
            return np.zeros(0, np.float32)
        used, index = _used(row)
        codes, sizes = self._spoken(group, ids, used), group.sounds[row]
        distance = self._costs.distances(codes[index], sizes, self._codes[entry], self._code_sizes[entry])
        return np.asarray(distance / ((sizes + self.lengths[entry]) / 2 + 1), np.float32)

    def _doubled(self, group: Windows, ids: Ints, rows: Ints) -> npt.NDArray[np.object_]:
        """The sounds of each of these windows, doubled."""
        words = ids.tolist()
        text = "".join([one.doubled[word] for one in self.vocabulary.readings for word in words])
        starts, stops = _stretches(self.vocabulary.traits.doubled[:, ids], group, rows)
        joined = np.empty(len(rows), np.object_)
        joined[:] = [text[start:stop] for start, stop in zip(starts.tolist(), stops.tolist(), strict=True)]
        return joined

    def _spoken(self, group: Windows, ids: Ints, rows: Ints) -> Codes:
        """The codes of the sounds of each of these windows, padded with 0."""
        words = ids.tolist()
        codes, _ = coded(["".join([one.sounds[word] for one in self.vocabulary.readings for word in words])])
        starts, stops = _stretches(self.vocabulary.traits.sounds[:, ids], group, rows)
        at = starts[:, None] + np.arange(int((stops - starts).max()))
        return np.where(at < stops[:, None], codes[0].take(at, mode="clip"), np.int8(0))


def _stretches(lengths: Ints, group: Windows, rows: Ints) -> tuple[Ints, Ints]:
    """Where these windows start and stop in a text of both readings of all words, of so many letters each."""
    ends = np.append(0, np.cumsum(lengths))
    first = group.reading[rows] * lengths.shape[1] + group.first[rows]
    return ends[first], ends[first + group.size[rows]]


def _used(rows: Ints) -> tuple[Ints, Ints]:
    """The distinct of ordered rows, and the place of each row among them."""
    new = np.append(True, rows[1:] != rows[:-1])
    return rows[new], np.cumsum(new) - 1


def _entries(names: tuple[Name, ...], ear: Ear) -> tuple[list[str], list[list[int]]]:
    """The readings of all names and the names of each, without those that hardly differ within a concept."""
    entries: dict[str, list[int]] = {}
    met: set[tuple[str, str]] = set()
    for number, name in enumerate(names):
        for reading in ear.form(name.form, name.language)[: 1 if name.heard else None]:
            rough = outlined(reading), name.concept
            if _SHORTEST <= len(reading) <= _LONGEST and (rough not in met or reading in entries):
                met.add(rough)
                entries.setdefault(reading, []).append(number)
    return list(entries), list(entries.values())
