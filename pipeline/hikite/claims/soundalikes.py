"""Names that a recogniser made English words of, in talk that does not tell large letters from small."""

from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from rapidfuzz import fuzz, process

from hikite.sounds import Ear, load_ear, squash
from hikite.sounds.distances import coded, load_costs

# A name of several syllables is heard as up to so many words; a short one is like too much else.
_LONGEST, _SHORTEST, _LENGTHS_APART = 4, 4, 3
# How far its sounds may be from the name's, a part of their length; the commoner the words in English, the
# less: each half decade of their count takes so much off. The other side's names must be so much farther.
_FAR, _A_LEVEL, _MARGIN = 0.33, 0.015, 0.05
# With fewer sounds the same, 0 to 100, none is near enough: it saves looking closer.
_LEAST_SHARED = 40.0


class Alike(NamedTuple):
    """Tokens ``first`` to ``stop`` sound like a name of ``side``, ``far`` from it; common words farther."""

    far: float
    first: int
    stop: int
    side: str


def alike(
    words: Sequence[str], names: Sequence[tuple[str, str]], taken: Collection[int], language: str
) -> Iterator[Alike]:
    """What sounds like one of the names, each with its side, the likest first, without overlaps."""
    ear, used = load_ear(language), set(taken)
    places: dict[tuple[str, ...], list[int]] = {}
    for first in range(len(words)):
        for stop in range(first + 1, min(first + _LONGEST, len(words)) + 1):
            if stop - 1 in taken or words[stop - 1].isdigit():
                break
            places.setdefault(tuple(words[first:stop]), []).append(first)
    found = (
        Alike(far, first, first + len(said), side)
        for said, side, far in _near(list(places), names, ear, language)
        for first in places[said]
    )
    for one in sorted(found):
        if used.isdisjoint(range(one.first, one.stop)):
            used.update(range(one.first, one.stop))
            yield one


def _near(
    said: Sequence[tuple[str, ...]], names: Sequence[tuple[str, str]], ear: Ear, language: str
) -> Iterator[tuple[tuple[str, ...], str, float]]:
    """The phrases near enough to a name of one side alone, with the side and how far they are."""
    sounds_of = {one: "".join([ear.word(squash(word) or word)[0] for word in one]) for one in said}
    pairs = [
        (one, sounds, side, reading)
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
        *coded([sounds for _, sounds, _, _ in pairs]), *coded([reading for *_, reading in pairs])
    )
    best: dict[tuple[str, ...], dict[str, float]] = {}
    for (one, sounds, side, reading), distance in zip(pairs, distances.tolist(), strict=True):
        sides = best.setdefault(one, {})
        sides[side] = min(sides.get(side, 1.0), distance / max(len(sounds), len(reading)))
    for one, sides in best.items():
        side, *others = sorted(sides, key=lambda side: sides[side])
        far = sides[side] + _A_LEVEL * sum(map(ear.level, one)) / len(one)
        if far < _FAR and all(sides[other] - sides[side] >= _MARGIN for other in others):
            yield one, side, far
