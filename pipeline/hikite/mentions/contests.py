"""How likely each name is where several contend for the same words: all ways to take them, weighed."""

import math
from collections.abc import Iterator

import numpy as np

from hikite.mentions.evidence import Vector
from hikite.sounds.skeletons import Ints

# What is less likely than this even without a rival takes no part.
_FAINT = -5.0


def contested(first: Ints, stop: Ints, scores: Vector) -> Vector:
    """The probability of each name, given its words and its log odds where it has no rival.

    A set of names without overlap is as likely as the product of their odds. Rows are ordered by ``first``.
    """
    chances = np.zeros(len(scores))
    able = np.flatnonzero(scores > _FAINT)
    for group in _groups(able, first, stop):
        if len(group) == 1:
            chances[group] = 1 / (1 + np.exp(-scores[group]))
        else:
            chances[group] = _shared(first[group].tolist(), stop[group].tolist(), scores[group].tolist())
    return chances


def _groups(able: Ints, first: Ints, stop: Ints) -> Iterator[Ints]:
    """The rows that are tied together by overlaps."""
    if not len(able):
        return
    reach = np.maximum.accumulate(stop[able])
    yield from np.split(able, np.flatnonzero(first[able][1:] >= reach[:-1]) + 1)


def _shared(first: list[int], stop: list[int], scores: list[float]) -> list[float]:
    """The probabilities within one group: all ways up to each place, and from it on, in logarithms."""
    places = sorted({*first, *stop})
    number = {place: at for at, place in enumerate(places)}
    spans = [(number[one], number[two], score) for one, two, score in zip(first, stop, scores, strict=True)]
    ahead = _ways(len(places), spans)
    last = len(places) - 1
    back = _ways(len(places), [(last - two, last - one, score) for one, two, score in spans])
    whole = ahead[last]
    return [math.exp(ahead[one] + score + back[last - two] - whole) for one, two, score in spans]


def _ways(size: int, spans: list[tuple[int, int, float]]) -> list[float]:
    """The logarithm of the summed odds of all ways up to each place."""
    ending: list[list[tuple[int, float]]] = [[] for _ in range(size)]
    for one, two, score in spans:
        ending[two].append((one, score))
    ways = [0.0] * size
    for at in range(1, size):
        terms = [ways[at - 1], *(ways[one] + score for one, score in ending[at])]
        most = max(terms)
        ways[at] = most + math.log(sum([math.exp(term - most) for term in terms]))
    return ways
