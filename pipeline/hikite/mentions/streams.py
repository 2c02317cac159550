"""A talk's tokens as arrays: spelling, sounds and the places that no name runs across."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from hikite.records import Talk
from hikite.sounds import squash

_SILENCE_MS = 2500
_PAUSE_MS = 300
_HALTS = frozenset(",;:.?!…—")
_SENTENCE_ENDS = frozenset(".?!…")
_HYPHENS = frozenset("-‐‑")
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Stream:
    """The talk's words in order; ``run`` numbers the stretches that a name cannot cross.

    A stretch ends where another speaker begins or a long silence falls. Statement borders and commas do not
    end one, since recognisers put them inside names they do not know. ``silences`` are the milliseconds
    before each word, none where no times are known. ``clitics`` are the words that hang on the one before.
    """

    words: tuple[str, ...]
    run: Ints
    marks: tuple[str, ...]
    silences: tuple[int, ...] = ()
    clitics: tuple[int, ...] = ()

    @cached_property
    def breaks(self) -> npt.NDArray[np.bool_]:
        """Whether the talk halts before each word and at the end: a mark, a pause, another stretch."""
        found = np.ones(len(self.words) + 1, np.bool_)
        if len(self.words) > 1:
            found[1:-1] = self.run[1:] != self.run[:-1]
            found[1:-1] |= self._halting[:-1]
            if self.silences:
                found[1:-1] |= np.array(self.silences[1:]) >= _PAUSE_MS
        return found

    @cached_property
    def joined(self) -> str:
        """All words without spaces."""
        return "".join(self.words)

    @cached_property
    def starts(self) -> Ints:
        """Where each word starts in ``joined``, and its length at the end."""
        return np.append(0, np.cumsum(list(map(len, self.words)), dtype=np.int64))

    @cached_property
    def sections(self) -> Ints:
        """The stretch of each word that a name as written stays in: one run, no sentence end inside."""
        ends = np.array([mark in _SENTENCE_ENDS for mark in self.marks], np.int64)
        return np.asarray(self.run * (len(ends) + 1) + np.cumsum(ends) - ends, np.int64)

    @cached_property
    def _halting(self) -> npt.NDArray[np.bool_]:
        """Whether a mark stands behind each word."""
        return np.array([mark in _HALTS for mark in self.marks], np.bool_)

    @cached_property
    def _halts(self) -> Ints:
        """How many marks stand before each word and in all."""
        return np.concatenate([[0], np.cumsum(self._halting)])

    def unbroken(self, first: int, stop: int) -> bool:
        """Whether no mark stands between these words: a name with a slot fills one clause."""
        return bool(self._halts[first] == self._halts[stop - 1])

    def halting(self, first: Ints, stop: Ints) -> npt.NDArray[np.bool_]:
        """Whether a mark stands inside each of these stretches of words."""
        return np.asarray(self._halts[first] != self._halts[stop - 1])

    def hyphened(self, first: int, stop: int) -> bool:
        """Whether these words are joined by hyphens: a "go-behind" is a thing, to "go behind" may be none."""
        return stop - first > 1 and all(mark in _HYPHENS for mark in self.marks[first : stop - 1])

    def whole(self, first: int, stop: int) -> bool:
        """Whether a name as written may fill these words."""
        return bool(self.sections[first] == self.sections[stop - 1])


def stream_of(talk: Talk) -> Stream:
    """The stream of a talk."""
    tokens = talk.tokens
    starts = np.array([token.start_ms for token in tokens], np.int64)
    ends = np.array([0, *(token.end_ms for token in tokens[:-1])], np.int64)[: len(tokens)]
    silences = starts - ends
    halts = silences > _SILENCE_MS
    halts[:1] = False
    for before, here in pairwise(talk.utterances):
        if before.speaker != here.speaker:
            halts[here.first] = True
    texts = talk.texts
    spelt = {text: squash(text) or "\u00b7" for text in set(texts)}
    return Stream(
        words=tuple([spelt[text] for text in texts]),
        run=np.cumsum(halts),
        marks=tuple([token.after for token in tokens]),
        silences=tuple(silences.tolist()),
        clitics=tuple([at for at, text in enumerate(texts) if text.startswith("'")]),
    )
