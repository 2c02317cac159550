"""Long names with a slip of the finger: a letter or two wrong, the beginning or the end intact."""

from dataclasses import dataclass

import numpy as np
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.sounds.skeletons import Flags, Ints
from hikite.terms import Name

_LEAST_LETTERS = 8
_INTACT = 4
_WORDS, _WIDTH = 6, 8
_LIKENESS = 0.86
_WRONG = 1 - _LIKENESS
# The forms that may be written with so many letters.
Lengths = dict[int, list[int]]


@dataclass(frozen=True)
class Slip:
    """Words ``first`` to ``stop`` spelt nearly as the name of this number, and how alike they are."""

    first: int
    stop: int
    name: int
    likeness: float


class Halves:
    """Forms by the half that stands as it is, and which halves there are by the few letters that close it."""

    def __init__(self) -> None:
        self.forms: dict[str, Lengths] = {}
        self.sizes: dict[str, tuple[int, ...]] = {}

    def add(self, half: str, outer: str, length: int, form: int) -> None:
        """A form of this half, which may be written with so many letters."""
        self.forms.setdefault(half, {}).setdefault(length, []).append(form)
        sizes = self.sizes.get(outer, ())
        if len(half) not in sizes:
            self.sizes[outer] = (*sizes, len(half))


class Slips:
    """An index of long names by the half they begin with and by that they end with."""

    def __init__(self, names: tuple[Name, ...]) -> None:
        self._forms: list[str] = []
        self._names: list[int] = []
        self._heads, self._tails = Halves(), Halves()
        for number, name in enumerate(names):
            form = squash(name.form)
            if len(form) < _LEAST_LETTERS or name.weak or "~" in name.form:
                continue
            # Likeness counts wrong letters by the longer of the two: one more can be written than left out.
            more, less = int(_WRONG * len(form) / (1 - _WRONG)), int(_WRONG * len(form))
            # A wrong letter leaves one half of a name as it is; that is asked of names with two as well.
            half = len(form) // 2
            for length in range(len(form) - less, len(form) + more + 1):
                self._heads.add(form[:half], form[:_INTACT], length, len(self._forms))
                self._tails.add(form[-half:], form[-_INTACT:], length, len(self._forms))
            self._forms.append(form)
            self._names.append(number)

    def find(self, stream: Stream, odd: Flags) -> list[Slip]:
        """Every window with an odd word in it that is spelt nearly as a name."""
        found = np.array(sorted({*self._begun(stream, odd), *self._ended(stream, odd)}), np.int64)
        window, form = np.divmod(found, len(self._forms))
        first, size = np.divmod(window, _WIDTH)
        return self._alike(stream, first, first + size, form.tolist()) if len(found) else []

    def _begun(self, stream: Stream, odd: Flags) -> list[int]:
        """Windows with an odd word in them, and the forms that begin alike and may be as long, as codes."""
        starts, joined, last = stream.starts.tolist(), stream.joined, len(stream.words)
        places, every = np.flatnonzero(odd), np.arange(last + 1)
        following = np.append(places, last + _WORDS)[np.searchsorted(places, every)]
        odd_at, found = following.tolist(), []
        for at in np.flatnonzero(following - every < _WORDS).tolist():
            start = starts[at]
            for size in self._heads.sizes.get(joined[start : start + _INTACT], ()):
                lengths = self._heads.forms.get(joined[start : start + size])
                if lengths:
                    for stop in range(odd_at[at] + 1, min(at + _WORDS, last) + 1):
                        forms = lengths.get(starts[stop] - start)
                        if forms:
                            found += self._codes(at, stop, forms)
        return found

    def _ended(self, stream: Stream, odd: Flags) -> list[int]:
        """The same of forms that end alike."""
        starts, joined, last = stream.starts.tolist(), stream.joined, len(stream.words)
        places, every = np.flatnonzero(odd), np.arange(last + 1)
        before = np.append(-_WORDS - 1, places)[np.searchsorted(places, every)]
        odd_at, found = before.tolist(), []
        for at in np.flatnonzero(every - before <= _WORDS).tolist():
            end = starts[at]
            for size in self._tails.sizes.get(joined[max(end - _INTACT, 0) : end], ()):
                lengths = self._tails.forms.get(joined[max(end - size, 0) : end])
                if lengths:
                    for first in range(max(at - _WORDS, 0), odd_at[at] + 1):
                        forms = lengths.get(end - starts[first])
                        if forms:
                            found += self._codes(first, at, forms)
        return found

    def _codes(self, first: int, stop: int, forms: list[int]) -> list[int]:
        """A window and each of these forms as one number, in their order."""
        window = (first * _WIDTH + stop - first) * len(self._forms)
        return [window + form for form in forms]

    def _alike(self, stream: Stream, first: Ints, stop: Ints, forms: list[int]) -> list[Slip]:
        starts, joined = stream.starts, stream.joined
        likeness = process.cpdist(
            [joined[one:two] for one, two in zip(starts[first].tolist(), starts[stop].tolist(), strict=True)],
            [self._forms[form] for form in forms],
            scorer=Levenshtein.normalized_similarity,
            score_cutoff=_LIKENESS,
            dtype=np.float32,
        )
        whole = stream.sections[first] == stream.sections[stop - 1]
        return [
            Slip(int(first[at]), int(stop[at]), self._names[forms[at]], float(likeness[at]))
            for at in np.flatnonzero((likeness >= _LIKENESS) & whole).tolist()
        ]
