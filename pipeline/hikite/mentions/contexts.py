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
_BEFORE, _BEHIND, _AROUND = 4, 3, 8
_TELLING = 3
# Words commoner than this ("the", "over", "first") say nothing about what the talk is about.
_COMMON = 10


class Surroundings:
    """The words of one language that tell what a stretch of talk is about."""

    def __init__(self, language: str, names: tuple[Name, ...], ear: Ear) -> None:
        speech = load_speech(language)
        actors = speech.actors
        doing = _telling((p for cue in _DOING for p in speech.cues.get(cue, ())), ear, _COMMON + 2)
        own = (name.form for name in names if name.language == language and not name.weak)
        cues = (p for cue in _TRADE for p in speech.cues.get(cue, ()))
        trade = _telling([*cues, *own, *actors.colour_nouns, *actors.opponents], ear, _COMMON)
        colours = [word for words in actors.colours.values() for word in words]
        pointed = {
            squash(word) for word in (*actors.subjects, *actors.objects, *actors.possessives, *colours)
        }
        # One bit for each of the three that a word is of.
        self._kinds = {
            word: (word in doing) | (word in pointed) << 1 | (word in trade) << 2
            for word in doing | pointed | trade
        }

    def look(self, stream: Stream) -> "Neighbourhood":
        """What stands around every place of a stream."""
        of = self._kinds.get
        kinds = np.array([0, *[of(word, 0) for word in stream.words]], np.int64)
        return Neighbourhood(*(np.cumsum(kinds >> number & 1) for number in range(3)))


class Neighbourhood:
    """Running counts of words of doing, of actors and of the trade over one stream."""

    def __init__(self, doing: Ints, actors: Ints, trade: Ints) -> None:
        self._doing, self._actors, self._trade = doing, actors, trade
        self._length = len(doing) - 1

    def doing(self, first: Ints, stop: Ints) -> Flags:
        """Whether a word of attacking or gripping stands before each range of words."""
        return np.asarray(self._doing[first] > self._doing[np.maximum(first - _BEFORE, 0)])

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
