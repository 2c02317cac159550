"""Cues with a direction and a reach: "if" speaks of what follows it, "blocked" of what stands before it.

After ConText (Harkema, Dowling, Thornblade and Chapman, "ConText: an algorithm for determining negation,
experiencer, and temporal status from clinical reports", J. Biomed. Inform. 42, 2009): cues, terminators and
pseudo-cues, all of them words in ``lexicon/<lang>/talk.toml``.
"""

from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from hikite.claims.phrases import Found, Phrases
from hikite.terms.speech import CueScope, Speech, load_speech

Bounds = Callable[[int], tuple[int, int]]
_PSEUDO, _END = "pseudo ", "end "


class Governed(NamedTuple):
    """Tokens ``first`` to ``stop`` (exclusive) that the cue ``name``, said at ``at``, speaks of."""

    first: int
    stop: int
    name: str
    at: int


class Cues:
    """One language's cue phrases, with what disarms and what ends them."""

    def __init__(self, speech: Speech) -> None:
        self.scopes = speech.scopes
        groups = dict(speech.cues)
        for name, scope in speech.scopes.items():
            groups[_PSEUDO + name] = scope.pseudo
            groups[_END + name] = scope.terminators
        self._pseudo = {_PSEUDO + name: name for name in speech.scopes}
        self._ends = {_END + name: name for name in speech.scopes}
        self._phrases = Phrases(groups)

    def find(self, words: list[str]) -> tuple[list[Found], dict[str, list[int]]]:
        """The cues said, without those a pseudo-cue disarms; where each cue's terminators begin."""
        found = self._phrases.find(words)
        disarmed = {
            (self._pseudo[one.name], index)
            for one in found
            if one.name in self._pseudo
            for index in range(one.first, one.stop)
        }
        cues: list[Found] = []
        ends: dict[str, list[int]] = {name: [] for name in self.scopes}
        for one in found:
            if one.name in self._ends:
                ends[self._ends[one.name]].append(one.first)
            elif one.name not in self._pseudo and (one.name, one.first) not in disarmed:
                cues.append(one)
        return cues, ends


@cache
def load_cues(language: str) -> Cues:
    """The cues of one language."""
    return Cues(load_speech(language))


def governed(
    found: Sequence[Found],
    ends: Mapping[str, list[int]],
    scopes: Mapping[str, CueScope],
    bounds: Mapping[str, Bounds],
) -> list[Governed]:
    """What every scoped cue speaks of; ``bounds`` gives the clause, statement or passage around a token."""
    reached = []
    for cue in found:
        scope = scopes.get(cue.name)
        if scope is None:
            continue
        low, high = bounds[scope.reach](cue.first)
        stops = ends[cue.name]
        after = bisect_left(stops, cue.stop)
        if scope.direction != "backward":
            stop = min(high, stops[after]) if after < len(stops) else high
            reached.append(Governed(cue.stop, stop, cue.name, cue.first))
        if scope.direction != "forward":
            before = bisect_left(stops, cue.first)
            first = max(low, stops[before - 1]) if before else low
            reached.append(Governed(first, cue.first, cue.name, cue.first))
    return reached
