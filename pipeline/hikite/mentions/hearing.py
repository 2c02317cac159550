"""Names found by their sound: windows of words that share a key with a name, weighed one by one."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.candidates import KeyTable
from hikite.mentions.streams import Stream
from hikite.mentions.vocabularies import Reading, Vocabulary
from hikite.mentions.windows import Windows, odd_in, repeated, windows
from hikite.sounds import Ear
from hikite.sounds.distances import Floats, coded, load_costs
from hikite.sounds.skeletons import SKELETONS, Flags, Ints, doubled, neighbours
from hikite.terms import Name

_WORDS = 6
_LONGEST = 30
_AT_ONCE = 20_000


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
PLAIN = Limits(shared=0.5, rough=0.55, distance=0.36, losses=1)
ODD = Limits(shared=0.25, rough=0.45, distance=0.45, losses=2)


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
        entries: dict[str, list[int]] = {}
        for number, name in enumerate(names):
            for reading in ear.form(name.form, name.language):
                if 3 <= len(reading) <= _LONGEST:
                    entries.setdefault(reading, []).append(number)
        self.readings = list(entries)
        self.names = list(entries.values())
        self.vocabulary = Vocabulary(ear)
        self.lengths = np.array([len(reading) for reading in self.readings], np.int64)
        self._costs = load_costs(language)
        self._codes, self._code_sizes = coded(self.readings)
        self._bits = np.array([neighbours(reading) for reading in self.readings], np.uint64)
        self._bit_counts = np.bitwise_count(self._bits).astype(np.float32)
        self._rough = np.array([doubled(reading) for reading in self.readings], np.object_)
        self._tables = [KeyTable(skeleton, self.readings) for skeleton in SKELETONS]

    def find(self, stream: Stream) -> Sounded:
        """Every window that sounds like a name, with each name it may be."""
        found = []
        for start in range(0, len(stream.words), _AT_ONCE):
            stop = start + _AT_ONCE + _WORDS
            ids = self.vocabulary.numbers(stream.words[start:stop])
            for part in self._part(ids, stream.run[start:stop]):
                mine = part.first < _AT_ONCE
                found.append(
                    Sounded(part.first[mine] + start, part.size[mine], part.entry[mine], part.distance[mine])
                )
        if not found:
            none = np.zeros(0, np.int64)
            return Sounded(none, none, none, np.zeros(0, np.float32))
        return Sounded(
            np.concatenate([part.first for part in found]),
            np.concatenate([part.size for part in found]),
            np.concatenate([part.entry for part in found]),
            np.concatenate([part.distance for part in found]),
        )

    def _part(self, ids: Ints, run: Ints) -> list[Sounded]:
        rare, twofold = self.vocabulary.rare[ids], self.vocabulary.twofold[ids]
        found = []
        for number, reading in enumerate(self.vocabulary.readings):
            for group in windows(reading, ids, _WORDS):
                size = group.size
                fit = (run[size - 1 :] == run[: len(run) - size + 1]) & (group.sounds >= 3)
                fit &= group.sounds <= _LONGEST + 6
                if number:
                    fit &= odd_in(twofold, size) > 0
                usable = np.flatnonzero(fit)
                if len(usable):
                    found.append(self._of_size(group, reading, ids, usable, odd_in(rare, size) > 0))
        return found

    def _of_size(self, group: Windows, reading: Reading, ids: Ints, usable: Ints, odd: Flags) -> Sounded:
        """The names that windows of one size sound like; equal windows are weighed once."""
        _, kept, inverse = np.unique(group.mark[usable], return_index=True, return_inverse=True)
        rows = usable[kept]
        row, entry = self._candidates(group, rows, odd)
        row, entry, distance = self._weigh(
            group.size, reading, ids[rows[:, None] + np.arange(group.size)], row, entry
        )
        near = distance <= np.where(odd[rows[row]], ODD.distance, PLAIN.distance)
        row, entry, distance = row[near], entry[near], distance[near]
        index, place = repeated(inverse, row)
        return Sounded(
            usable[place], np.full(len(place), group.size, np.int64), entry[index], distance[index]
        )

    def _candidates(self, group: Windows, rows: Ints, odd: Flags) -> tuple[Ints, Ints]:
        """Indexes into ``rows`` and the entries that share a key and enough neighbouring sounds."""
        sounds, bits, strange = group.sounds[rows], group.bits[rows], odd[rows]
        counts = np.bitwise_count(bits).astype(np.float32)
        share = np.where(strange, ODD.shared, PLAIN.shared).astype(np.float32)
        most = np.where(strange, ODD.losses, PLAIN.losses)
        found = []
        for number, table in enumerate(self._tables):
            sizes = group.sizes[number][rows]
            able = np.flatnonzero(
                (sizes >= table.skeleton.shortest - 2) & (sizes <= table.skeleton.longest + 2)
            )
            losses = np.minimum(table.skeleton.lost_of(sizes[able]), most[able])
            for at, entry in table.look(group.keys[number][rows[able]], sizes[able], losses):
                row = able[at]
                shared = np.bitwise_count(bits[row] & self._bits[entry])
                enough = shared >= np.maximum(counts[row], self._bit_counts[entry]) * share[row]
                row, entry = row[enough], entry[enough]
                long, short = sounds[row], self.lengths[entry]
                near = np.abs(long - short) * 3 <= np.maximum(long, short)
                found.append(row[near] * len(self.readings) + entry[near])
        pairs = np.unique(np.concatenate(found)) if found else np.zeros(0, np.int64)
        return pairs // len(self.readings), pairs % len(self.readings)

    def _weigh(
        self, size: int, reading: Reading, words: Ints, row: Ints, entry: Ints
    ) -> tuple[Ints, Ints, Floats]:
        """The pairs that a rough and then the weighted distance leave, with the latter per sound."""
        if not len(row):
            return row, entry, np.zeros(0, np.float32)
        used, index = np.unique(row, return_inverse=True)
        rough = _joined(reading.doubled, words[used])
        alike = process.cpdist(
            rough[index], self._rough[entry], scorer=Levenshtein.normalized_similarity,
            score_cutoff=ODD.rough, dtype=np.float32,
        )  # fmt: skip
        good = alike >= ODD.rough
        row, entry, index = row[good], entry[good], index[good]
        left, index = np.unique(index, return_inverse=True)
        codes, sizes = coded(list(_joined(reading.sounds, words[used[left]])))
        sizes = sizes[index]
        distance = self._costs.distances(codes[index], sizes, self._codes[entry], self._code_sizes[entry])
        return row, entry, np.asarray(distance / ((sizes + self.lengths[entry]) / 2 + 1), np.float32)


def _joined(pieces: list[str], words: Ints) -> npt.NDArray[np.object_]:
    """The pieces of each row of words, joined."""
    joined = np.empty(len(words), np.object_)
    joined[:] = ["".join([pieces[word] for word in row]) for row in words.tolist()]
    return joined
