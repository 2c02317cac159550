"""Names where somebody must be named, however they were heard: behind a score, behind "two to"."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from hikite.claims.said.gaps import gaps_of, joined
from hikite.claims.said.numbers import find_numbers
from hikite.claims.said.plausible import HIGHEST
from hikite.claims.said.wording import load_wording
from hikite.records import Talk
from hikite.sounds import Ear, load_ear, squash
from hikite.sounds.distances import load_costs
from hikite.terms.speech import Speech

# So many words may be one name, with so many sounds at least. How far those may be from the name's, a part of
# their length; the other side's names must be so much farther. Set on recognised training bouts.
_LONGEST, _SHORTEST, _LENGTHS_APART, _FAR, _MARGIN = 4, 4, 4, 0.4, 0.13
# A mark may stand within a name only where it is so near.
_FAR_PARTED = 0.25
# Words that are all so common are no name (half decades of their count).
_COMMON = 9
_ENDS = frozenset(".?!;…")


class _Heard(NamedTuple):
    """Tokens ``first`` to ``stop`` with their sounds, and how far those may be from a name's."""

    first: int
    stop: int
    sounds: str
    far: float


def owners(
    talk: Talk, names: Sequence[tuple[str, str]], taken: Collection[int], speech: Speech, language: str
) -> Iterator[tuple[int, int, str]]:
    """Token ranges at such places that sound like one side's name and unlike the other's, with the side.

    ``taken`` are the tokens that are known to be something else.
    """
    ear = load_ear(language)
    meant = [
        (reading, side)
        for name, side in names
        for reading in _sounds(name.split(), ear)
        if len(reading) >= _SHORTEST
    ]
    if len({side for _, side in meant}) < 2:
        return
    places = {at: list(_windows(talk, at, taken, ear)) for at in _places(talk, speech, language)}
    done = 0
    for first, stop, side in _nearest(places, meant, language):
        if first >= done:
            done = stop
            yield first, stop, side


def _places(talk: Talk, speech: Speech, language: str) -> Iterator[int]:
    """Where somebody is named: behind two numbers, and behind a number and what gives it to somebody."""
    words, giving = talk.texts, speech.actors.giving
    numbers = find_numbers(words, joined(talk, gaps_of(talk)), load_wording(language).numbers)
    stops = {number.stop for number in numbers if number.value <= HIGHEST}
    starts = {number.first for number in numbers}
    for number in numbers:
        at = number.stop
        if at not in stops or at in starts or at >= len(words) or _ended(talk, at):
            continue
        if words[at] in giving:
            if at + 1 not in starts and not talk.marks[at]:
                yield at + 1
        elif number.first in stops or (number.first - 1 in stops and words[number.first - 1] in giving):
            yield at


def _ended(talk: Talk, at: int) -> bool:
    """Whether a mark before a token ends a statement."""
    return talk.marks[at - 1].strip()[:1] in _ENDS


def _windows(talk: Talk, first: int, taken: Collection[int], ear: Ear) -> Iterator[_Heard]:
    """The words from a place on that may be a name, one more at a time."""
    words, far, common = talk.texts, _FAR, True
    for stop in range(first + 1, min(first + _LONGEST, len(words)) + 1):
        if stop - 1 in taken or words[stop - 1].isdigit() or (stop - 1 > first and _ended(talk, stop - 1)):
            return
        if stop - 1 > first and talk.marks[stop - 2].strip():
            far = _FAR_PARTED
        common = common and ear.level(words[stop - 1]) >= _COMMON
        sounds = "" if common else _sounds(words[first:stop], ear)[0]
        if len(sounds) >= _SHORTEST:
            yield _Heard(first, stop, sounds, far)


def _sounds(words: Sequence[str], ear: Ear) -> tuple[str, ...]:
    """How words may sound, without what is written in them beside letters."""
    return ear.words([squash(word) or word for word in words])


def _nearest(
    places: Mapping[int, Sequence[_Heard]], meant: Sequence[tuple[str, str]], language: str
) -> Iterator[tuple[int, int, str]]:
    """At each place the words likest to a name, where that is near enough and the other side's are not."""
    pairs = [
        (at, heard, reading, side)
        for at, several in places.items()
        for heard in several
        for reading, side in meant
        if abs(len(heard.sounds) - len(reading)) <= _LENGTHS_APART
    ]
    if not pairs:
        return
    every = np.arange(len(pairs))
    shares = load_costs(language).shares(
        [heard.sounds for _, heard, _, _ in pairs], [reading for *_, reading, _ in pairs], every, every
    )
    best: dict[int, dict[str, tuple[float, _Heard]]] = {}
    for (at, heard, _, side), far in zip(pairs, shares.tolist(), strict=True):
        sides = best.setdefault(at, {})
        if side not in sides or far < sides[side][0]:
            sides[side] = far, heard
    for sides in best.values():
        side, *others = sorted(sides, key=lambda side: sides[side][0])
        far, heard = sides[side]
        if far <= heard.far and all(sides[other][0] - far >= _MARGIN for other in others):
            yield heard.first, heard.stop, side
