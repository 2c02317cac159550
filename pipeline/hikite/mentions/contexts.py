"""The neighbourhood of a name: words of attacking and gripping, of the trade, of competitors."""

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt

from hikite.mentions.streams import Stream
from hikite.sounds import Ear, squash
from hikite.sounds.skeletons import Ints
from hikite.terms import Name
from hikite.terms.speech import load_speech

Flags = npt.NDArray[np.bool_]
_DOING = ("attempt", "take", "seek", "break", "threat", "counter")
_TRADE = (*_DOING, "fail", "success", "award", "penalise", "passive", "win", "time", "replay", "combine")
_BEFORE, _BEHIND, _AROUND, _CLOSE, _TOLD = 4, 3, 8, 2, 3
_TELLING = 3
_MOST = 1 << 16
# Words commoner than this ("the", "over", "first") say nothing about what the talk is about.
_COMMON = 10


class Surroundings:
    """The words of one language that tell what a stretch of talk is about.

    ``called`` are words by the kind of name that they are followed by.
    """

    def __init__(
        self, language: str, names: tuple[Name, ...], ear: Ear, called: dict[str, tuple[str, ...]]
    ) -> None:
        speech = load_speech(language)
        actors = speech.actors
        doing = _telling((p for cue in _DOING for p in speech.cues.get(cue, ())), ear, _COMMON + 2)
        own = (name.form for name in names if name.language == language and not name.weak)
        cues = (p for cue in _TRADE for p in speech.cues.get(cue, ()))
        trade = _telling([*cues, *own, *actors.colour_nouns, *actors.opponents], ear, _COMMON)
        colours = [word for words in actors.colours.values() for word in words]
        people = frozenset(
            squash(word) for word in (*actors.subjects, *actors.objects, *actors.possessives, *colours)
        )
        pointing = frozenset(squash(word) for word in (*actors.articles, *actors.possessives))
        leading = frozenset(squash(word) for word in actors.prepositions)
        self._kinds = tuple(called)
        self._wanted = (
            doing,
            people,
            trade,
            pointing,
            leading,
            *(frozenset(words) for words in called.values()),
        )
        # Which of these each word met is among, bit by bit.
        self._traits: dict[str, int] = {}

    def look(self, stream: Stream) -> "Neighbourhood":
        """What stands around every place of a stream."""
        traits = self._traits
        for word in set(stream.words).difference(traits):
            traits[word] = sum([1 << at for at, wanted in enumerate(self._wanted) if word in wanted])
        found = np.fromiter((traits[word] for word in stream.words), np.int64, len(stream.words))
        if len(traits) > _MOST:
            traits.clear()
        counts = np.zeros((len(self._wanted), len(found) + 1), np.int64)
        places = np.arange(len(self._wanted))[:, None]
        np.cumsum(found >> places & 1, axis=1, out=counts[:, 1:])
        doing, actors, trade, pointing, leading, *kinds = counts
        return Neighbourhood(
            doing, actors, trade, pointing, leading, dict(zip(self._kinds, kinds, strict=True))
        )


class Neighbourhood:
    """Running counts of words over one stream.

    Of doing, of actors and of the trade, of articles and the like (``pointing``), of prepositions
    (``leading``), and of the words behind which each of ``kinds`` is named.
    """

    def __init__(
        self,
        doing: Ints,
        actors: Ints,
        trade: Ints,
        pointing: Ints,
        leading: Ints,
        kinds: dict[str, Ints],
    ) -> None:
        self._doing, self._actors, self._trade = doing, actors, trade
        self._pointing, self._leading, self._kinds = pointing, leading, kinds
        self._length = len(doing) - 1

    def doing(self, first: Ints, stop: Ints) -> Flags:
        """Whether a word of attacking or gripping stands before each range of words."""
        return np.asarray(self._doing[first] > self._doing[np.maximum(first - _BEFORE, 0)])

    def pointed(self, first: Ints) -> Flags:
        """Whether an article or the like stands right in front of each place."""
        return np.asarray(self._pointing[first] > self._pointing[np.maximum(first - 1, 0)])

    def led(self, first: Ints) -> Flags:
        """Whether a preposition stands right in front of each place."""
        return np.asarray(self._leading[first] > self._leading[np.maximum(first - 1, 0)])

    def set(self, first: Ints) -> Flags:
        """Whether a word of doing stands closely before each place."""
        return np.asarray(self._doing[first] > self._doing[np.maximum(first - _CLOSE, 0)])

    def fits(self, first: Ints, kinds: list[str]) -> Flags:
        """Whether a word stands closely before each place behind which a name of that kind is expected."""
        every, found = np.array(kinds), np.zeros(len(first), np.bool_)
        low = np.maximum(first - _TOLD, 0)
        for kind, counts in self._kinds.items():
            found |= (every == kind) & (counts[first] > counts[low])
        return found

    def actor(self, first: Ints, stop: Ints) -> Flags:
        """Whether a competitor is pointed at before or behind each range."""
        before = self._actors[first] - self._actors[np.maximum(first - _BEFORE, 0)]
        behind = self._actors[np.minimum(stop + _BEHIND, self._length)] - self._actors[stop]
        return np.asarray(before + behind > 0)

    def trade(self, first: Ints, stop: Ints) -> Ints:
        """How many words of the trade stand around each range, three at most."""
        before = self._trade[first] - self._trade[np.maximum(first - _AROUND, 0)]
        behind = self._trade[np.minimum(stop + _AROUND, self._length)] - self._trade[stop]
        return np.minimum(before + behind, _TELLING)


def _telling(phrases: Iterable[str], ear: Ear, common: int) -> frozenset[str]:
    """The words of the phrases that are not among the commonest of the language."""
    words = {squash(word) for phrase in phrases for word in phrase.replace("-", " ").split()}
    return frozenset(word for word in words if len(word) > 2 and ear.level(word) <= common)
