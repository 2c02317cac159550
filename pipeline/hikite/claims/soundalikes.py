"""Names that a recogniser made other words of: what sounds like one, weighed by what stands around it."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from functools import cache
from math import log
from typing import NamedTuple

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
_FAR, _LEAST_SHARED = 0.65, 40.0
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


class Near(NamedTuple):
    """A name of ``side`` that words sound like: how far they are, and how much farther from the others'."""

    far: float
    margin: float
    side: str
    reading: str
    sounds: str
    name: str


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
    words, ear, around = talk.texts, load_ear(language), _Around(talk, load_speech(language).actors)
    places: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for first in range(len(words)):
        for stop in range(first + 1, min(first + _LONGEST, len(words)) + 1):
            if stop - 1 in taken or words[stop - 1].isdigit():
                break
            places[tuple(words[first:stop])].append(first)
    for said, near in _near(list(places), names, ear, language):
        shown = _shown(said, near, len(places[said]), ear)
        for first in places[said]:
            yield first, first + len(said), near.side, shown | around.clues(first, first + len(said))


def _near(
    said: Sequence[tuple[str, ...]], names: Sequence[tuple[str, str]], ear: Ear, language: str
) -> Iterator[tuple[tuple[str, ...], Near]]:
    """The phrases near enough to a name of one side alone, with what they are near to."""
    sounds_of = {one: "".join([ear.word(squash(word) or word)[0] for word in one]) for one in said}
    pairs = [
        (one, sounds, side, reading, name)
        for name, side in names
        if len(name) >= _SHORTEST
        for reading in dict.fromkeys(ear.word(name))
        for sounds, _, one in process.extract(
            reading, sounds_of, scorer=fuzz.ratio, score_cutoff=_LEAST_SHARED, limit=None
        )
        if sounds and abs(len(sounds) - len(reading)) <= _LENGTHS_APART
    ]
    if not pairs:
        return
    distances = load_costs(language).distances(
        *coded([pair[1] for pair in pairs]), *coded([pair[3] for pair in pairs])
    )
    best: dict[tuple[str, ...], dict[str, Near]] = defaultdict(dict)
    for (one, sounds, side, reading, name), distance in zip(pairs, distances.tolist(), strict=True):
        near = Near(distance / max(len(sounds), len(reading)), _APART, side, reading, sounds, name)
        best[one][side] = min(best[one].get(side, near), near)
    for one, sides in best.items():
        nearest, *others = sorted(sides.values())
        if nearest.far < _FAR:
            yield one, nearest._replace(margin=min((_APART, *(other.far - nearest.far for other in others))))


def _shown(said: tuple[str, ...], near: Near, often: int, ear: Ear) -> dict[str, float]:
    """What the words themselves show, wherever they stand."""
    levels = [min(ear.level(word), _COMMON) / _COMMON for word in said]
    strange = float(min(levels) < _STRANGE / _COMMON)
    brief = float(len(near.reading) <= _BRIEF)
    return {
        "always": 1.0,
        "far": near.far,
        "far squared": near.far * near.far,
        "brief": brief,
        "brief far": brief * near.far,
        "long far": near.far * max(len(near.reading) - 6, 0),
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
        "letters": fuzz.ratio("".join(said), near.name) / 100,
        "letters strange": strange * fuzz.ratio("".join(said), near.name) / 100,
        "onset": float(near.sounds[0] == near.reading[0]),
        "coda": float(near.sounds[-1] == near.reading[-1]),
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
