"""Places where a name is likely: how much the words beside them speak for one that starts or ends there."""

import tomllib
from functools import cache

import numpy as np
import numpy.typing as npt
from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.mentions.streams import Stream
from hikite.sounds import Ear, load_ear
from hikite.sounds.skeletons import Ints
from hikite.terms.places import lexicon_root

Odds = npt.NDArray[np.float64]
Three = tuple[float, float, float]
# Names that stand in the same places, by their concept's kind: what is done, what is held, what is called.
KINDS = ("technique", "grip", "call")
_CALLED = ("score", "penalty", "stoppage", "result")
# What stands for words that are not listed: the end of a stretch, a figure, an odd word, any other.
BORDER, FIGURE, ODD, PLAIN = "^", "#", "~", "*"
LONGEST = 3
_RARE = 5


class Contexts(BaseModel, frozen=True, extra="forbid"):
    """The typed content of ``lexicon/<lang>/slots.toml``: what stands beside names, with log odds."""

    before: dict[str, Three] = {}
    behind: dict[str, Three] = {}


class Slots:
    """The contexts of one language as tables, to look at all places of a stream at once."""

    def __init__(self, contexts: Contexts, ear: Ear) -> None:
        phrases = [phrase.split() for phrase in (*contexts.before, *contexts.behind)]
        listed = sorted({BORDER, FIGURE, ODD, PLAIN}.union(*phrases))
        self._numbers = {word: number for number, word in enumerate(listed)}
        self._ear = ear
        self._before = self._tables(
            {tuple(said.split()[::-1]): odds for said, odds in contexts.before.items()}
        )
        self._behind = self._tables({tuple(said.split()): odds for said, odds in contexts.behind.items()})

    def look(self, stream: Stream) -> tuple[Odds, Odds]:
        """The log odds that a name of each kind starts at, and ends before, each word, and the end."""
        size, numbers = len(stream.words), self._numbers
        known = {word: numbers[self.listed(word)] for word in set(stream.words)}
        ids = np.array([known[word] for word in stream.words], np.int64)
        stretch = np.cumsum(np.append(False, stream.run[1:] != stream.run[:-1])[:size])
        # One border stands between two stretches, and enough of them at both ends.
        at = np.arange(size) + stretch + LONGEST
        line = np.full(size + int(stretch[-1] if size else 0) + 2 * LONGEST, numbers[BORDER], np.int64)
        line[at] = ids
        before, behind = np.zeros((size + 1, len(KINDS))), np.zeros((size + 1, len(KINDS)))
        before[:-1] = self._odds(self._before, [line[at - back] for back in range(1, LONGEST + 1)])
        behind[1:] = self._odds(self._behind, [line[at + ahead] for ahead in range(1, LONGEST + 1)])
        return before, behind

    def listed(self, word: str) -> str:
        """The word, or what stands for it where it is not listed."""
        return word if word in self._numbers else stand_in(word, self._ear)

    def _tables(self, contexts: dict[tuple[str, ...], Three]) -> list[tuple[Ints, Odds]]:
        """Keys and odds of the contexts by their length."""
        tables = []
        for size in range(1, LONGEST + 1):
            mine = [
                (self._key([np.int64(self._numbers[word]) for word in said]), odds)
                for said, odds in contexts.items()
                if len(said) == size
            ]
            mine.sort(key=lambda one: int(one[0]))
            keys = np.array([-1, *(key for key, _ in mine)], np.int64)
            tables.append((keys, np.array([(0.0,) * len(KINDS), *(odds for _, odds in mine)])))
        return tables

    def _key(self, words: "list[np.int64] | list[Ints]") -> "Ints | np.int64":
        key = words[0] * 0
        for word in words:
            key = key * len(self._numbers) + word
        return key

    def _odds(self, tables: list[tuple[Ints, Odds]], words: list[Ints]) -> Odds:
        """The odds that the longest known context gives at each place."""
        odds = np.zeros((len(words[0]), len(KINDS)))
        for size, (keys, values) in enumerate(tables, start=1):
            wanted = self._key(words[:size])
            found = np.searchsorted(keys, wanted, "right") - 1
            known = keys[found] == wanted
            odds[known] = values[found[known]]
        return odds


def kind_of(kind: str) -> int:
    """Which of ``KINDS`` a concept's kind goes with."""
    return 2 if kind in _CALLED else 1 if kind == "grip" else 0


def stand_in(word: str, ear: Ear) -> str:
    """What stands for a word that is not listed."""
    return FIGURE if word.isdecimal() else ODD if ear.level(word) < _RARE else PLAIN


@cache
def load_slots(language: str) -> Slots:
    """The contexts for one language, none where it has no file; LexiconError on a broken file."""
    file = lexicon_root() / language / "slots.toml"
    if not file.is_file():
        return Slots(Contexts(), load_ear(language))
    try:
        return Slots(Contexts.model_validate(tomllib.loads(file.read_text("utf-8"))), load_ear(language))
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
