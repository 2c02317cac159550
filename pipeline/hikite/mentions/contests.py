"""Names as written and as heard that contend for the same words, each as likely as beside all others."""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from hikite.mentions.covers import Found, Option, beliefs, best_cover, contending

Same = Callable[[str, str], bool]
# What is written is never surer than this when it contends with what is heard; a name that is a piece of one
# clearly heard around it may well be none of its own.
_SURE, _PIECE = 0.98, 0.62
# A long name with a letter or two wrong is hardly ever anything else.
_LONG = 2.0
# Of finds that say the same the likeliest range of words is kept.
_RANGE = 0.2
_MOST, _SEVERAL, _FAINT = 0.99, 4, 0.005


class Heard(NamedTuple):
    """Words that may be heard as a name: the log odds of that alone, and how likely it must be to count.

    ``clear`` is set where they sound very much like the name.
    """

    find: Found
    odds: float
    asked: float
    clear: bool = False


class Contender(NamedTuple):
    """A find with its likelihood beside all that contends with it."""

    find: Found
    odds: float
    asked: float
    chance: float


def settle(named: Sequence[Found], heard: Sequence[Heard], least: float, same: Same) -> list[Found]:
    """The likeliest finds without overlap; ``least`` is the least likelihood of what is only heard."""
    finds = [*(Heard(find, odds, 0.0) for find, odds in _written(named, heard)), *heard]
    finds.sort(key=lambda one: (one.find.first, one.find.stop))
    spans = [(one.find.first, one.find.stop) for one in finds]
    chances = beliefs(spans, [one.odds for one in finds])
    kept = []
    for run in contending(spans):
        those = [Contender(*finds[at][:3], chances[at]) for at in run]
        for one in those:
            both, rivals = _beside(one, those, same)
            if _is_heard(one.find):
                if both < max(one.asked, least):
                    continue
                find = one.find._replace(candidates=_ranked(one.find.candidates[0], both, rivals))
            else:
                share = min(1.0, one.chance * (1 + math.exp(-one.odds)))
                find = one.find.believed(share * one.find.chance)
            kept.append(find._replace(worth=both - least + _RANGE * one.chance))
    return best_cover(kept)


def log_odds(chance: float) -> float:
    """The log odds of what is written, which is never wholly sure."""
    chance = min(chance, _SURE)
    return math.log(chance / (1 - chance))


def _is_heard(find: Found) -> bool:
    return find.candidates[0].how == "sound"


def _written(named: Sequence[Found], heard: Sequence[Heard]) -> list[tuple[Found, float]]:
    """What is written with its log odds: less where it may be a piece of a longer name heard there."""
    longer: dict[int, list[Found]] = {}
    for one in heard:
        for at in range(one.find.first, one.find.stop) if one.clear else ():
            longer.setdefault(at, []).append(one.find)
    found = []
    for find in named:
        part = any(_part(find, other) for other in longer.get(find.first, ()))
        odds = log_odds(min(find.chance, _PIECE) if part else find.chance)
        found.append((find, odds + _LONG * (find.slipped and not part)))
    return found


def _part(find: Found, other: Found) -> bool:
    """Whether the other find has these words and more, and a name with the words of this name and more."""
    more = other.stop - other.first > find.stop - find.first
    within = other.first <= find.first and find.stop <= other.stop
    own, longer = find.candidates[0], other.candidates[0]
    # A concept is called by its usual name, whichever spelling was met.
    return (
        more
        and within
        and (_words(own.form) < _words(longer.form) or _words(own.concept) < _words(longer.concept))
    )


def _words(name: str) -> set[str]:
    return set(name.replace("-", " ").split())


def _beside(
    one: Contender, run: list[Contender], same: Same
) -> tuple[float, dict[str, tuple[float, Option]]]:
    """How likely all together is that says the same in these words, and what else is heard there."""
    own = one.find.candidates[0]
    both, others = one.chance, dict[str, tuple[float, Option]]()
    for other in run:
        if other is one or other.find.first >= one.find.stop or one.find.first >= other.find.stop:
            continue
        rival = other.find.candidates[0]
        if same(rival.concept, own.concept):
            both += other.chance
        elif _is_heard(other.find):
            chance = others.get(rival.concept, (0.0, rival))[0] + other.chance
            others[rival.concept] = chance, rival
    return min(both, _MOST), others


def _ranked(own: Option, both: float, others: dict[str, tuple[float, Option]]) -> tuple[Option, ...]:
    """The concept that is likeliest and what else it may be, with probabilities that sum to one at most."""
    ranked = sorted(others.values(), key=lambda rival: -rival[0])[: _SEVERAL - 1]
    room = min(1.0, (1 - both) / max(sum([chance for chance, _ in ranked]), 1e-9))
    rivals = [
        rival._replace(probability=round(min(both, room * chance), 4))
        for chance, rival in ranked
        if chance > _FAINT
    ]
    return own._replace(probability=round(both, 4)), *rivals
