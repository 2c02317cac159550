"""Names that a recogniser made other words of: what sounds like one, weighed by what stands around it."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cache
from math import log
from typing import NamedTuple

import numpy as np
from pydantic import BaseModel
from rapidfuzz import fuzz, process

from hikite.claims.judges import SideJudge, shipped
from hikite.records import Talk
from hikite.sounds import Ear, load_ear, squash
from hikite.sounds.distances import coded, load_costs
from hikite.terms.speech import Actors, load_speech

# A name of several syllables is heard as up to so many words; a short one is like too much else.
_LONGEST, _SHORTEST, _LENGTHS_APART = 4, 4, 3
# How far its sounds may be from the name's at all, a part of their length; with fewer sounds the same, 0 to
# 100, none is near enough: it saves looking closer.
_FAR, _LEAST_SHARED = 0.5, 40.0
# The other side's names are as good as out of hearing when so much farther.
_APART = 0.3
# Words are as common as the commonest from the one level on, and hardly English below the other.
_COMMON, _STRANGE = 12, 4
_BRIEF = 4
# From these log odds on words are taken for a name: one not met costs whose all that follows is, one met
# wrongly is mostly outvoted. Set on recognised sets that nothing was fitted on.
_LEAST = -0.5


class Soundalikes(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue in log odds of words that sound like a name being it; ``tests/fits/soundalikes.py``."""

    meant: SideJudge


class Alike(NamedTuple):
    """Tokens ``first`` to ``stop`` sound like a name of ``side``; ``pull`` is the log odds of being it."""

    pull: float
    first: int
    stop: int
    side: str


class _Meant(NamedTuple):
    """A name of ``side`` as it may sound."""

    reading: str
    side: str
    name: str


class Near(NamedTuple):
    """A name that words sound like: how far their sounds are, and how much farther from the other side's."""

    far: float
    margin: float
    sounds: str
    meant: _Meant


def alike(
    talk: Talk, names: Sequence[tuple[str, str]], taken: Collection[int], language: str
) -> Iterator[Alike]:
    """What rather is one of the names than not, each with its side, the likeliest first, without overlaps."""
    judge, used = load_soundalikes().meant, set(taken)
    found = (
        Alike(judge.pull(clues), first, stop, side)
        for first, stop, side, clues in heard(talk, names, taken, language)
    )
    for one in sorted([one for one in found if one.pull >= _LEAST], key=lambda one: (-one.pull, one.first)):
        if used.isdisjoint(range(one.first, one.stop)):
            used.update(range(one.first, one.stop))
            yield one


def heard(
    talk: Talk, names: Sequence[tuple[str, str]], taken: Collection[int], language: str
) -> Iterator[tuple[int, int, str, dict[str, float]]]:
    """Every place that may be a name: its tokens, the side, and what speaks for and against it."""
    ear, around = load_ear(language), _Around(talk, load_speech(language).actors)
    meant = [
        _Meant(reading, side, name)
        for name, side in names
        if len(name) >= _SHORTEST
        for reading in _readings(name, ear)
    ]
    places = _places(talk, taken, max((len(one.reading) for one in meant), default=0) + _LENGTHS_APART, ear)
    for said, near in _near({said: sounds for said, (sounds, _) in places.items()}, meant, language):
        firsts = places[said][1]
        shown = _shown(said, near, len(firsts), ear)
        for first in firsts:
            yield first, first + len(said), near.meant.side, shown | around.clues(first, first + len(said))


def _readings(name: str, ear: Ear) -> list[str]:
    """How a name may sound; one of several words only by their first readings."""
    first, *more = [ear.word(word) for word in name.split()]
    return list(dict.fromkeys(first)) if not more else ["".join([one[0] for one in (first, *more)])]


def _places(
    talk: Talk, taken: Collection[int], longest: int, ear: Ear
) -> dict[tuple[str, ...], tuple[str, list[int]]]:
    """The phrases of a talk that are not too long for a name, with their sounds and where they begin."""
    words = talk.texts
    known = {word: "" if word.isdigit() else ear.word(squash(word) or word)[0] for word in set(words)}
    sounds_of = ["" if at in taken else known[word] for at, word in enumerate(words)]
    places: dict[tuple[str, ...], tuple[str, list[int]]] = {}
    for first in range(len(words)):
        sounds = ""
        for stop, more in enumerate(sounds_of[first : first + _LONGEST], start=first + 1):
            sounds += more
            if not more or len(sounds) > longest:
                break
            if len(sounds) > 1:
                places.setdefault(tuple(words[first:stop]), (sounds, []))[1].append(first)
    return places


def _near(
    said: Mapping[tuple[str, ...], str], meant: Sequence[_Meant], language: str
) -> Iterator[tuple[tuple[str, ...], Near]]:
    """The phrases near enough to a name of one side alone, with what they are near to."""
    sounds_of = list(said.items())
    shared = process.cdist(
        [one.reading for one in meant],
        [sounds for _, sounds in sounds_of],
        scorer=fuzz.ratio,
        score_cutoff=_LEAST_SHARED,
        dtype=np.uint8,
    )
    pairs = [
        (*sounds_of[at], meant[which])
        for which, at in np.argwhere(shared).tolist()
        if abs(len(sounds_of[at][1]) - len(meant[which].reading)) <= _LENGTHS_APART
    ]
    if not pairs:
        return
    distances = load_costs(language).distances(
        *coded([pair[1] for pair in pairs]), *coded([pair[2].reading for pair in pairs])
    )
    best: dict[tuple[str, ...], dict[str, Near]] = defaultdict(dict)
    for (one, sounds, name), distance in zip(pairs, distances.tolist(), strict=True):
        far = distance / max(len(sounds), len(name.reading))
        if far < _FAR + _APART:
            near = Near(far, _APART, sounds, name)
            best[one][name.side] = min(best[one].get(name.side, near), near)
    for one, sides in best.items():
        nearest, *others = sorted(sides.values())
        if nearest.far < _FAR:
            yield one, nearest._replace(margin=min((_APART, *(other.far - nearest.far for other in others))))


def _shown(said: tuple[str, ...], near: Near, often: int, ear: Ear) -> dict[str, float]:
    """What the words themselves show, wherever they stand."""
    levels = [min(ear.level(word), _COMMON) / _COMMON for word in said]
    name, reading = near.meant.name, near.meant.reading
    letters = fuzz.ratio("".join(said), name) / 100
    strange = float(min(levels) < _STRANGE / _COMMON)
    brief = float(len(reading) <= _BRIEF)
    return {
        "always": 1.0,
        "far": near.far,
        "far squared": near.far * near.far,
        "brief": brief,
        "brief far": brief * near.far,
        "long far": near.far * max(len(reading) - 6, 0),
        "margin": near.margin,
        "everyday": sum(levels) / len(levels),
        "begins everyday": levels[0],
        "ends everyday": levels[-1],
        "strange": strange,
        "strange alone": strange * (len(said) == 1),
        "words": float(len(said) - 1),
        "one word": float(len(said) == 1),
        "again": min(log(often), 1.5),
        "again strange": strange * min(log(often), 1.5),
        "letters": letters,
        "letters strange": strange * letters,
        "onset": float(near.sounds[0] == reading[0]),
        "coda": float(near.sounds[-1] == reading[-1]),
    }


class _Around:
    """What stands around a place of the talk."""

    def __init__(self, talk: Talk, actors: Actors) -> None:
        self._words, self._actors, self._capitals = talk.texts, actors, frozenset(talk.capitals)
        self._opens = {one.first for one in talk.utterances} | set(talk.halts)
        self._opens |= {at for at, mark in enumerate(talk.marks, start=1) if mark not in ("", "-")}

    def clues(self, first: int, stop: int) -> dict[str, float]:
        """What speaks of a name there: 1 for every cue."""
        words, actors, found = self._words, self._actors, []
        before = words[first - 1] if first else ""
        behind = words[stop] if stop < len(words) else ""
        opens = first in self._opens
        if opens:
            found.append("opens")
        elif before in actors.prepositions:
            found.append("governed")
        elif before in actors.articles:
            found.append("article")
        elif before in actors.partings:
            found.append("parted")
        if stop in self._opens or not behind:
            found.append("closes")
        elif behind in actors.wearing:
            found.append("linked")
        elif behind.endswith("s"):
            found.append("acting")
        if first in self._capitals and not opens:
            found.append("capital")
        return dict.fromkeys(found, 1.0)


@cache
def load_soundalikes() -> Soundalikes:
    """The fitted weights by which what sounds like a name is one."""
    return shipped("soundalikes.json", Soundalikes)
