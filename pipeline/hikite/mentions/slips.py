"""Long names with a slip of the finger: a letter or two wrong, the beginning or the end intact."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.sounds.skeletons import Flags
from hikite.terms import Name

_LEAST_LETTERS = 8
_INTACT = 4
_WORDS = 6
_LIKENESS = 0.86
_WRONG = 1 - _LIKENESS
# Forms by their first or last letters and by the length of what they may be written as.
Index = dict[str, dict[int, list[tuple[int, str]]]]


@dataclass(frozen=True)
class Slip:
    """Words ``first`` to ``stop`` spelt nearly as the name of this number, and how alike they are."""

    first: int
    stop: int
    name: int
    likeness: float


class Slips:
    """An index of long names by the letters they begin and end with."""

    def __init__(self, names: tuple[Name, ...]) -> None:
        self._forms: list[str] = []
        self._names: list[int] = []
        heads: Index = {}
        tails: Index = {}
        for number, name in enumerate(names):
            form = squash(name.form)
            if len(form) < _LEAST_LETTERS or name.weak or "~" in name.form:
                continue
            # Likeness counts wrong letters by the longer of the two: one more can be written than left out.
            more, less = int(_WRONG * len(form) / (1 - _WRONG)), int(_WRONG * len(form))
            # A wrong letter leaves one half of a name as it is; that is asked of names with two as well.
            intact = len(form) // 2
            for length in range(len(form) - less, len(form) + more + 1):
                for index, key, piece in (
                    (heads, form[:_INTACT], form[:intact]),
                    (tails, form[-_INTACT:], form[-intact:]),
                ):
                    index.setdefault(key, {}).setdefault(length, []).append((len(self._forms), piece))
            self._forms.append(form)
            self._names.append(number)
        self._heads, self._tails = heads, tails

    def find(self, stream: Stream, odd: Flags) -> list[Slip]:
        """Every window with an odd word in it that is spelt nearly as a name."""
        near = {*self._begun(stream, odd), *self._ended(stream, odd)}
        found = sorted(near)
        return self._alike(stream, [(first, stop) for first, stop, _ in found], [form for *_, form in found])

    def _begun(self, stream: Stream, odd: Flags) -> Iterator[tuple[int, int, int]]:
        """Windows with an odd word in them, and the forms that begin alike and may be as long."""
        starts, joined, last = stream.starts.tolist(), stream.joined, len(stream.words)
        places, every = np.flatnonzero(odd), np.arange(last + 1)
        following = np.append(places, last + _WORDS)[np.searchsorted(places, every)]
        odd_at = following.tolist()
        for at in np.flatnonzero(following - every < _WORDS).tolist():
            start = starts[at]
            heads = self._heads.get(joined[start : start + _INTACT])
            if heads:
                for stop in range(odd_at[at] + 1, min(at + _WORDS, last) + 1):
                    for form, piece in heads.get(starts[stop] - start, ()):
                        if joined.startswith(piece, start):
                            yield at, stop, form

    def _ended(self, stream: Stream, odd: Flags) -> Iterator[tuple[int, int, int]]:
        """The same of forms that end alike."""
        starts, joined, last = stream.starts.tolist(), stream.joined, len(stream.words)
        places, every = np.flatnonzero(odd), np.arange(last + 1)
        before = np.append(-_WORDS - 1, places)[np.searchsorted(places, every)]
        odd_at = before.tolist()
        for at in np.flatnonzero(every - before <= _WORDS).tolist():
            end = starts[at]
            tails = self._tails.get(joined[max(end - _INTACT, 0) : end])
            if tails:
                for first in range(max(at - _WORDS, 0), odd_at[at] + 1):
                    for form, piece in tails.get(end - starts[first], ()):
                        if joined.endswith(piece, 0, end):
                            yield first, at, form

    def _alike(self, stream: Stream, windows: list[tuple[int, int]], forms: list[int]) -> list[Slip]:
        if not windows:
            return []
        starts = stream.starts.tolist()
        likeness = process.cpdist(
            [stream.joined[starts[first] : starts[stop]] for first, stop in windows],
            [self._forms[form] for form in forms],
            scorer=Levenshtein.normalized_similarity,
            score_cutoff=_LIKENESS,
            dtype=np.float32,
        )
        return [
            Slip(*windows[at], self._names[forms[at]], float(likeness[at]))
            for at in np.flatnonzero(likeness >= _LIKENESS).tolist()
            if stream.whole(*windows[at])
        ]
