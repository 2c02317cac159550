"""Whether two neighbouring names are one competitor's, and whether a name is a competitor's at all."""

from collections.abc import Iterator
from functools import cache
from math import log
from typing import NamedTuple

from pydantic import BaseModel

from hikite.claims.handles import Handles, hails, wears
from hikite.claims.judges import SideJudge, shipped
from hikite.claims.references import Reference
from hikite.records import Talk
from hikite.sounds import Ear
from hikite.terms.speech import Speech

# Neighbours further apart than this have nothing to do with each other; these stand in each other's way.
_FARTHEST, _APART = 40, 3
# From this level on every word is as common as the next.
_COMMON = 8
_UNMARKED = ("", "-")


class Kinships(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue in log odds: ``tie`` of two neighbours being one, ``meant`` of a name being of the bout.

    Fitted on labelled bouts by ``tests/fits/namings.py``.
    """

    tie: SideJudge
    meant: SideJudge


class Point(NamedTuple):
    """Tokens ``first`` to ``stop`` call ``who``, or say the colour of ``side``."""

    first: int
    stop: int
    who: str
    side: str = ""


class Points:
    """The names and colours of a talk in order, with what stands around them."""

    def __init__(
        self,
        talk: Talk,
        handles: Handles,
        colours: tuple[Reference, ...],
        speech: Speech,
        terms: set[int],
    ) -> None:
        self.talk, self.handles, self.terms = talk, handles, terms
        self.words, self.actors = talk.texts, speech.actors
        names = [Point(*one) for one in handles.said]
        self.said = tuple(sorted((*names, *(Point(one.first, one.stop, "", one.side) for one in colours))))
        self.statement_of = [0] * len(self.words)
        for number, utterance in enumerate(talk.utterances):
            for index in range(utterance.first, utterance.stop):
                self.statement_of[index] = number

    def pairs(self) -> Iterator[tuple[Point, Point]]:
        """Neighbours in one statement, or in one and the next, that are not known to be one or two.

        Whoever comes from a place stands beside what follows the place, too: "Tork of Stenwick in blue".
        """
        for number, one in enumerate(self.said):
            for two in self.said[number + 1 : number + 3]:
                if self._asks(one, two):
                    yield one, two
                if not (two.who and self.after_any(two, self.actors.origins)):
                    break

    def _asks(self, one: Point, two: Point) -> bool:
        apart = self.statement_of[two.first] - self.statement_of[one.first]
        known = one.who == two.who if one.who and two.who else bool(one.side and two.side)
        return apart <= 1 and not known and 0 <= two.first - one.stop <= _FARTHEST

    def after_any(self, one: Point, words: frozenset[str] | tuple[str, ...]) -> bool:
        """Whether one of the words stands right before a point."""
        before = self.talk.tokens[one.first - 1] if one.first else None
        return before is not None and before.text in words and not before.after

    def opens(self, index: int) -> bool:
        """Whether a statement or what follows a mark begins with a token."""
        return (
            not index
            or self.statement_of[index - 1] != self.statement_of[index]
            or self.talk.tokens[index - 1].after not in _UNMARKED
        )


def tie_clues(points: Points, one: Point, two: Point) -> dict[str, float]:
    """What stands between two neighbours, and how: 1 for every cue.

    Whoever "he" is was named last: of "Tork. He's in the blue" both are as near as in "Tork in the blue".
    """
    names = bool(one.who and two.who)
    if one.who and two.side and wears(points.actors, points.words, two.first):
        return dict.fromkeys(("here", "linked", "worn"), 1.0)
    if points.statement_of[two.first] != points.statement_of[one.first]:
        opens = points.statement_of[two.first - 1] != points.statement_of[two.first]
        clues = {"next", "next opens" if opens else "next within"} | ({"next names"} if names else set())
    else:
        clues = _between(points, one, two) | {"here names" if names else _colour_clue(points, one, two)}
    return dict.fromkeys(clues, 1.0)


def _between(points: Points, one: Point, two: Point) -> set[str]:
    """Marks and words between two neighbours in one statement."""
    actors, between = points.actors, points.words[one.stop : two.first]
    if hails(actors, points.words, two.first):
        # Whoever "he" is was named last: "Tork in blue, he's from Stenwick".
        return {"here", "linked", "origin"}
    marked = any(points.talk.tokens[at - 1].after not in _UNMARKED for at in range(one.stop, two.first + 1))
    linked = all(word in actors.links for word in between)
    clues = {"here", ("linked" if linked else "unlinked") + (" marked" if marked else "")}
    clues |= {"mark alone"} if marked and not between else set()
    clues |= {"apart"} if len(between) > _APART else set()
    clues |= {"parted"} if any(word in actors.partings for word in between) else set()
    clues |= {"term between"} if not points.terms.isdisjoint(range(one.stop, two.first)) else set()
    last = next((word for word in reversed(between) if word not in actors.articles), "")
    if last in actors.wearing and two.side and not marked:
        clues.add("worn")
    elif last in actors.origins and linked and not marked:
        clues.add("origin")
    elif last in actors.prepositions:
        clues.add("preposition")
    return clues


def _colour_clue(points: Points, one: Point, two: Point) -> str:
    """Which neighbour the colour is, and whether it stands first in its clause, last, alone or amid it."""
    colour = one if one.side else two
    first = colour.first
    while not points.opens(first) and points.words[first - 1] in points.actors.links - {"is", "'s"}:
        first -= 1
    leads = points.opens(first)
    following = points.words[colour.stop] if colour.stop < len(points.words) else ""
    trails = not following or points.opens(colour.stop) or following in points.actors.partings
    place = ("alone" if trails else "leading") if leads else "trailing" if trails else "amid"
    return f"{'behind' if colour is one else 'before'} {place}"


def meant_clues(points: Points, who: str, best: float, speech: Speech, ear: Ear) -> dict[str, float]:
    """What speaks for and against a name being a competitor's; ``best`` is its strongest tie to another."""
    said = [one for one in points.said if one.who == who]
    words, tokens, often = points.words, points.talk.tokens, len(said)
    nation = float(who in speech.nations)
    level = min(ear.level(word) for word in points.handles.words[who])
    acts = (one for one in said if one.stop < len(words) and not points.opens(one.stop))
    called = sum(points.opens(one.first) and points.opens(one.stop) for one in said if one.stop < len(words))
    return {
        "always": 1.0,
        "often": log(often),
        "once": float(often == 1),
        "within": 1.0 - called / often,
        "governed": float(any(points.after_any(one, points.actors.prepositions) for one in said)),
        "origin": float(any(points.after_any(one, points.actors.origins) for one in said)),
        "acting": sum(words[one.stop].endswith("s") for one in acts) / often,
        "article": (1.0 - nation)
        * sum(points.after_any(one, points.actors.articles) for one in said)
        / often,
        "nation": nation,
        "nation once": nation * (often == 1),
        "nation's man": nation * any(points.after_any(one, points.actors.articles[:1]) for one in said),
        "tied": min(best, 3.0),
        "everyday": 0.0 if nation else min(level, _COMMON) / _COMMON,
        "small": float(not any(tokens[one.first].capital for one in said)),
    }


@cache
def load_kinships() -> Kinships:
    """The fitted weights by which names are tied."""
    return shipped("namings.json", Kinships)
