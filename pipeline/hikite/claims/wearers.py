"""Who wears what, read off the place where both competitors are first told of in one breath."""

from collections.abc import Mapping
from itertools import product

from hikite.claims.kinships import Point, Points

# A name is introduced within this many tokens of its colour, likelier where only linking words lie between.
_NEAR, _LINKED = 6, 3
# Both are introduced at one of the first places of each colour, so near each other; alike is likelier.
_FIRST, _BREATH, _ALIKE, _STOPS = 3, 40, 1.5, ".;?!…"


def worn_at_first(points: Points, sides: tuple[str, str]) -> dict[str, str]:
    """Who is introduced in which side's colour; empty where nobody tells of both in one breath.

    Whoever names the wearer before one colour most likely does so before the other too.
    """
    worn = [[one for one in points.said if one.side == side][:_FIRST] for side in sides]
    names = {index: one for one in points.said if one.who for index in range(one.first, one.stop)}
    best, owner = 0.0, dict[str, str]()
    for one, other in product(*worn):
        if abs(one.first - other.first) > _BREATH:
            continue
        for before, too in product((True, False), repeat=2):
            name, weight = _wearer(points, names, one, before)
            rival, against = _wearer(points, names, other, too)
            score = (weight + against) * (_ALIKE if before == too else 1.0)
            if weight and against and name != rival and score > best:
                best, owner = score, {name: sides[0], rival: sides[1]}
    return owner


def _wearer(points: Points, names: Mapping[int, Point], colour: Point, before: bool) -> tuple[str, int]:
    """The name next before or behind a colour and how closely it stands to it; no name and 0 without one."""
    tokens, actors = points.talk.tokens, points.actors
    gap, linked = 0, True
    for index in range(colour.first - 1, -1, -1) if before else range(colour.stop, len(tokens)):
        word, cut = tokens[index].text, tokens[index if before else index - 1].after
        if gap > _NEAR or word in actors.partings or any(mark in _STOPS for mark in cut):
            break
        name = names.get(index)
        if name is None:
            gap, linked = gap + 1, linked and word in actors.links
        elif not points.after_any(name, actors.origins):
            apart = tokens[index].cue != tokens[colour.first].cue
            return name.who, (_NEAR + 1 - gap) * (_LINKED if linked else 1) // (1 + apart)
    return "", 0
