"""Named phrases found in a token stream in one pass."""

from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

import ahocorasick_rs


class Found(NamedTuple):
    """Tokens ``first`` to ``stop`` (exclusive) say a phrase of the group ``name``."""

    first: int
    stop: int
    name: str
    phrase: str


class Phrases:
    """An index of phrases by group; a phrase may belong to several groups."""

    def __init__(self, groups: Mapping[str, Iterable[str]]) -> None:
        owners: dict[str, list[str]] = {}
        for name, phrases in groups.items():
            for phrase in phrases:
                owners.setdefault(phrase, []).append(name)
        self._phrases = tuple(owners)
        self._owners = tuple(tuple(owners[phrase]) for phrase in self._phrases)
        self._automaton = ahocorasick_rs.AhoCorasick([f" {phrase} " for phrase in self._phrases])

    def find(self, words: list[str]) -> tuple[Found, ...]:
        """Every phrase said in the words, overlapping ones too, in order of their first word."""
        text, starts, stops = _laid_out(tuple(words))
        found = [
            Found(starts[start], stops[stop], name, self._phrases[which])
            for which, start, stop in self._automaton.find_matches_as_indexes(text, overlapping=True)
            for name in self._owners[which]
        ]
        return tuple(sorted(found))


def find_once(groups: Mapping[str, Iterable[str]], words: list[str]) -> tuple[Found, ...]:
    """What ``Phrases`` of the groups find in the words, where they are asked but once.

    An index costs more than the search: phrases with a word that is never said stay out of it.
    """
    said = frozenset(words)
    likely = {
        name: [one for one in phrases if said.issuperset(one.split())] for name, phrases in groups.items()
    }
    return Phrases(likely).find(words) if any(likely.values()) else ()


@lru_cache(maxsize=2)
def _laid_out(words: tuple[str, ...]) -> tuple[str, dict[int, int], dict[int, int]]:
    """The words as one text, spaces around each; by place in it the words that start there and end there."""
    position, starts, stops = 1, {}, {}
    for index, word in enumerate(words):
        starts[position - 1] = index
        position += len(word) + 1
        stops[position] = index + 1
    return f" {' '.join(words)} ", starts, stops


@cache
def phrases_of(*groups: tuple[str, tuple[str, ...]]) -> Phrases:
    """The index of a language's own phrases, built once: each group is its name and its phrases."""
    return Phrases(dict(groups))
