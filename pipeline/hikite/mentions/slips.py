"""Long names with a slip of the finger: a letter or two wrong, the beginning or the end intact."""

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
_SPREAD = 2
_WORDS = 6
_LIKENESS = 0.86


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
        self._heads: dict[str, list[int]] = {}
        self._tails: dict[str, list[int]] = {}
        for number, name in enumerate(names):
            form = squash(name.form)
            if len(form) < _LEAST_LETTERS or name.weak or "~" in name.form:
                continue
            self._heads.setdefault(form[:_INTACT], []).append(len(self._forms))
            self._tails.setdefault(form[-_INTACT:], []).append(len(self._forms))
            self._forms.append(form)
            self._names.append(number)
        self._lengths = [len(form) for form in self._forms]

    def find(self, stream: Stream, odd: Flags) -> list[Slip]:
        """Every window with an odd word in it that is spelt nearly as a name."""
        starts = stream.starts.tolist()
        oddness = np.concatenate([[0], np.cumsum(odd)]).tolist()
        windows: list[tuple[int, int]] = []
        forms: list[int] = []
        last = len(stream.words)
        for first in range(last):
            if oddness[min(first + _WORDS, last)] == oddness[first]:
                continue
            start = starts[first]
            head = self._heads.get(stream.joined[start : start + _INTACT], ())
            for stop in range(first + 1, min(first + _WORDS, last) + 1):
                length = starts[stop] - start
                if oddness[stop] == oddness[first] or length < _LEAST_LETTERS - _SPREAD:
                    continue
                tail = self._tails.get(stream.joined[starts[stop] - _INTACT : starts[stop]], ())
                for form in {*head, *tail} if head or tail else ():
                    if abs(self._lengths[form] - length) <= _SPREAD:
                        windows.append((first, stop))
                        forms.append(form)
        return self._alike(stream, windows, forms)

    def _alike(self, stream: Stream, windows: list[tuple[int, int]], forms: list[int]) -> list[Slip]:
        if not windows:
            return []
        starts = stream.starts
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
