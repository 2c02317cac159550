"""How likely a name that stands there as written is meant: everyday words name nothing most of the time."""

import numpy as np
import numpy.typing as npt

from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.covers import Found
from hikite.mentions.evidence import WRITTEN_SIGNS, Matrix, Vector
from hikite.mentions.streams import Stream
from hikite.sounds.skeletons import Ints
from hikite.terms import Terms

_AROUND, _BESIDE = 8, 2


def written_signs(
    finds: list[Found], stream: Stream, near: Neighbourhood, terms: Terms, levels: Ints
) -> Matrix:
    """One row of signs for each find; ``levels`` tells how common each word of the stream is."""
    first = np.array([find.first for find in finds], np.int64)
    stop = np.array([find.stop for find in finds], np.int64)
    weak = np.array([find.weak for find in finds], np.float64)
    concepts = [terms.concepts[find.candidates[0].concept] for find in finds]
    sums = np.append(0, np.cumsum(levels))
    common = (sums[stop] - sums[first]) / np.maximum(stop - first, 1) / 10
    sizes = stream.starts
    letters = np.log(sizes[stop] - sizes[first])
    trade = near.trade(first, stop).astype(np.float64)
    doing = near.doing(first, stop).astype(np.float64)
    alone = (stream.breaks[first] & stream.breaks[stop]).astype(np.float64)
    among, beside = _company(first, stop, weak, len(stream.words))
    columns: dict[str, npt.ArrayLike] = {
        "always": np.ones(len(finds)),
        "weak": weak,
        "grip": [concept.kind == "grip" for concept in concepts],
        "ambiguous": [len(find.candidates) > 1 for find in finds],
        "ended": [find.candidates[0].how == "near" for find in finds],
        "letters": letters,
        "words": stop - first,
        "common": common,
        "doing": doing,
        "actor": near.actor(first, stop),
        "trade": trade,
        "among": among,
        "beside": beside,
        "alone": alone,
        "weak_alone": weak * alone,
        "weak_doing": weak * doing,
        "weak_trade": weak * trade,
        "weak_among": weak * among,
        "weak_common": weak * common,
        "weak_letters": weak * letters,
    }
    return np.stack([np.asarray(columns[sign], np.float64) for sign in WRITTEN_SIGNS], axis=1)


def judged(find: Found, terms: Terms) -> bool:
    """Whether the fitted weights speak of such a find: a technique, grip or hold, no family word."""
    concept = terms.concepts[find.candidates[0].concept]
    return concept.kind in ("technique", "grip", "hold") and not concept.generic


def _company(first: Ints, stop: Ints, weak: Vector, length: int) -> tuple[Vector, Vector]:
    """Of each find how many words around and right beside it belong to names that are no everyday words."""
    borders = np.zeros(length + 1, np.int64)
    np.add.at(borders, first[weak == 0], 1)
    np.add.at(borders, stop[weak == 0], -1)
    sums = np.append(0, np.cumsum(np.cumsum(borders[:-1]) > 0))
    around, beside = (
        sums[first] - sums[np.maximum(first - reach, 0)] + sums[np.minimum(stop + reach, length)] - sums[stop]
        for reach in (_AROUND, _BESIDE)
    )
    return np.minimum(around, 4).astype(np.float64), (beside > 0).astype(np.float64)
