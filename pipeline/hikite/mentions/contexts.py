"""The neighbourhood of a name: words of attacking and gripping, words that point at a competitor."""

from functools import cache

import numpy as np
import numpy.typing as npt

from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.terms.speech import load_speech

Flags = npt.NDArray[np.bool_]
_DOING = ("attempt", "take", "seek", "break", "threat", "counter")
_BEFORE, _BEHIND = 4, 3


@cache
def doing_words(language: str) -> frozenset[str]:
    """The words with which a speaker says that somebody attacks or grips."""
    cues = load_speech(language).cues
    return frozenset(
        squash(phrase.split()[0])
        for name in _DOING
        for phrase in cues.get(name, ())
        if len(phrase.split()[0]) > 2
    )


@cache
def actor_words(language: str) -> frozenset[str]:
    """The words with which a speaker points at a competitor."""
    actors = load_speech(language).actors
    colours = [word for words in actors.colours.values() for word in words]
    return frozenset(
        squash(word) for word in (*actors.subjects, *actors.objects, *actors.possessives, *colours)
    )


class Neighbourhood:
    """For every word of a stream, whether words of doing and of actors stand near."""

    def __init__(self, stream: Stream, language: str) -> None:
        doing, actors = doing_words(language), actor_words(language)
        self._doing = _sums(np.array([word in doing for word in stream.words], np.bool_))
        self._actors = _sums(np.array([word in actors for word in stream.words], np.bool_))
        self._length = len(stream.words)

    def doing(self, first: int, stop: int) -> bool:
        """Whether a word of attacking or gripping stands before the name."""
        return bool(self._doing[first] > self._doing[max(0, first - _BEFORE)])

    def actor(self, first: int, stop: int) -> bool:
        """Whether a competitor is pointed at before or behind the name."""
        behind = min(self._length, stop + _BEHIND)
        return bool(
            self._actors[first] > self._actors[max(0, first - _BEFORE)]
            or self._actors[behind] > self._actors[stop]
        )


def _sums(flags: Flags) -> npt.NDArray[np.int64]:
    return np.concatenate([[0], np.cumsum(flags)])
