"""Names that a recogniser made other words of: what sounds like one, weighed by what stands around it."""

from collections import defaultdict
from collections.abc import Collection, Container, Iterator, Sequence
from functools import cache
from itertools import chain
from math import log
from typing import NamedTuple

import numpy as np
from pydantic import BaseModel
from rapidfuzz import fuzz, process

from hikite.claims.judges import SideJudge, shipped
from hikite.records import Talk
from hikite.sounds import Ear, load_ear, squash
from hikite.sounds.distances import load_costs
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
        for reading in ear.words(name.split())
    ]
    longest = max((len(one.reading) for one in meant), default=0) + _LENGTHS_APART
    runs = _runs(talk, taken, longest, ear)
    apt = [sounds for sounds in dict.fromkeys(chain(*runs)) if 1 < len(sounds) <= longest]
    near = {one.sounds: one for one in _near(apt, meant, language)}
    for said, (sounds, firsts) in _phrases(talk, runs, near).items():
        shown, side = _shown(said, near[sounds], len(firsts), ear), near[sounds].meant.side
        for first in firsts:
            yield first, first + len(said), side, shown | around.clues(first, first + len(said))


def _runs(talk: Talk, taken: Collection[int], longest: int, ear: Ear) -> list[list[str]]:
    """The sounds from each token on of one word, of two, and so on; too long ones with what is in no name."""
    words = talk.texts
    known = {word: "" if word.isdigit() else ear.word(squash(word) or word)[0] for word in set(words)}
    apart = " " * (longest + 1)
    sounds = [apart if at in taken else known[word] or apart for at, word in enumerate(words)]
    runs = [sounds]
    for size in range(1, _LONGEST):
        runs.append([run + more for run, more in zip(runs[-1], sounds[size:], strict=False)])
    return runs


def _phrases(
    talk: Talk, runs: Sequence[Sequence[str]], near: Container[str]
) -> dict[tuple[str, ...], tuple[str, list[int]]]:
    """The phrases whose sounds are near a name, with those and where they begin."""
    places: dict[tuple[str, ...], tuple[str, list[int]]] = {}
    for size, several in enumerate(runs, start=1):
        for first, sounds in enumerate(several):
            if sounds in near:
                said = tuple(talk.texts[first : first + size])
                places.setdefault(said, (sounds, []))[1].append(first)
    return places


def _near(heard: Sequence[str], meant: Sequence[_Meant], language: str) -> Iterator[Near]:
    """What is near enough to a name of one side alone, with what it is near to."""
    readings = [one.reading for one in meant]
    shared = process.cdist(readings, heard, scorer=fuzz.ratio, score_cutoff=_LEAST_SHARED, dtype=np.uint8)
    lengths, wanted = np.array([len(one) for one in heard]), np.array([len(one) for one in readings])
    which, at = np.nonzero((shared > 0) & (abs(lengths - wanted[:, None]) <= _LENGTHS_APART))
    if not len(at):
        return
    far = load_costs(language).shares(heard, readings, at, which)
    hopeful = np.zeros(len(heard), np.bool_)
    hopeful[at[far < _FAR]] = True
    some = hopeful[at] & (far < _FAR + _APART)
    best: dict[int, dict[str, Near]] = defaultdict(dict)
    for number, name, apart in zip(at[some].tolist(), which[some].tolist(), far[some].tolist(), strict=True):
        sides, one = best[number], Near(apart, _APART, heard[number], meant[name])
        sides[one.meant.side] = min(sides.get(one.meant.side, one), one)
    for sides in best.values():
        nearest, *others = sorted(sides.values())
        yield nearest._replace(margin=min((_APART, *(other.far - nearest.far for other in others))))


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
