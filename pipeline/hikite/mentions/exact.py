"""Names written as the lexicon writes them, wherever the words are cut."""

from collections.abc import Iterator
from typing import NamedTuple

import ahocorasick_rs
import numpy as np

from hikite.mentions.spellings import SLOT, spellings
from hikite.mentions.streams import Stream
from hikite.terms import Name

# A slot holds the article, side or person between the halves of a split form: "picks the far ankle".
_SLOT_WORDS = 3
_JOINABLE = 5
_ENDING = 4


class Match(NamedTuple):
    """Words ``first`` to ``stop`` written as this name; ``plain`` when without any ending or swap."""

    first: int
    stop: int
    name: int
    plain: bool


class Spelt:
    """An index of every spelling of every name; one pass over a stream finds them all."""

    def __init__(self, names: tuple[Name, ...]) -> None:
        # A name's number doubled, one more when the spelling is plain: numbers weigh less than pairs.
        whole: dict[str, list[int]] = {}
        slotted: dict[str, dict[str, list[int]]] = {}
        self._sizes = [len(name.form.replace("-", " ").split()) for name in names]
        for number, name in enumerate(names):
            if SLOT in name.form:
                front, _, back = name.form.partition(SLOT)
                ends = [other for other, _plain in spellings(back, name.language)]
                for spelling, _plain in spellings(front, name.language):
                    behind = slotted.setdefault(spelling, {})
                    for end in ends:
                        behind.setdefault(end, []).append(number)
                continue
            for spelling, plain in spellings(name.form, name.language):
                if spelling:
                    whole.setdefault(spelling, []).append(2 * number + plain)
        backs = {end for behind in slotted.values() for end in behind}
        self._patterns = sorted({*whole, *slotted, *backs})
        self._whole = {spelling: tuple(codes) for spelling, codes in whole.items()}
        self._slotted, self._backs = slotted, backs
        self._build()

    def _build(self) -> None:
        self._automaton = ahocorasick_rs.AhoCorasick(self._patterns, store_patterns=False)

    def __getstate__(self) -> dict[str, object]:
        """All but the automaton, which cannot be kept and is built from the patterns."""
        return {name: value for name, value in self.__dict__.items() if name != "_automaton"}

    def __setstate__(self, state: dict[str, object]) -> None:
        self.__dict__.update(state)
        self._build()

    def find(self, stream: Stream) -> list[Match]:
        """Every match, overlapping ones too."""
        matches: list[Match] = []
        fronts: list[tuple[int, int, str]] = []
        backs: dict[int, list[tuple[str, int]]] = {}
        for first, stop, pattern in self._hits(stream):
            for code in self._whole.get(pattern, ()):
                number, plain = code >> 1, bool(code & 1)
                more = stop - first - self._sizes[number]
                # A short word behind a name is a word of its own, not an ending: "захват за пояс у …".
                stray = more > 0 and not plain and len(stream.words[stop - 1]) < _ENDING
                if not stray and (more == 0 or len(pattern) >= _JOINABLE):
                    matches.append(Match(first, stop, number, plain))
            if pattern in self._slotted:
                fronts.append((first, stop, pattern))
            if pattern in self._backs:
                backs.setdefault(first, []).append((pattern, stop))
        split = self._over_slots(fronts, backs)
        return [*matches, *(match for match in split if stream.unbroken(match.first, match.stop))]

    def _hits(self, stream: Stream) -> Iterator[tuple[int, int, str]]:
        """Word ranges that spell a pattern from border to border, inside one run and one sentence."""
        found = self._automaton.find_matches_as_indexes(stream.joined, overlapping=True)
        if not found:
            return
        spans = np.array(found, np.int64)
        starts = stream.starts
        first = np.searchsorted(starts, spans[:, 1])
        stop = np.searchsorted(starts, spans[:, 2])
        # A hit may begin past the last border; it is no word then.
        first = np.minimum(first, len(stream.words) - 1)
        whole = (starts[first] == spans[:, 1]) & (starts[stop] == spans[:, 2])
        whole &= stream.sections[first] == stream.sections[stop - 1]
        for pattern, one, two in zip(
            spans[whole, 0].tolist(), first[whole].tolist(), stop[whole].tolist(), strict=True
        ):
            yield one, two, self._patterns[pattern]

    def _over_slots(
        self, fronts: list[tuple[int, int, str]], backs: dict[int, list[tuple[str, int]]]
    ) -> Iterator[Match]:
        for first, stop, front in fronts:
            near: dict[str, int] = {}
            for at in range(stop, stop + _SLOT_WORDS + 1):
                for back, end in backs.get(at, ()):
                    near.setdefault(back, end)
            behind = self._slotted[front]
            split = [(number, near[back]) for back in near for number in behind.get(back, ())]
            for number, end in sorted(split):
                yield Match(first, end, number, True)
