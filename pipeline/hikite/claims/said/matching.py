"""Phrases with slots, found in one pass over the words."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import product
from typing import NamedTuple

from hikite.claims.said.wording import Entry


SIDES = ("<side>", "<name>")


class Filler(NamedTuple):
    """What fills a slot: tokens ``first`` to ``stop``; a number's ``value``, the ``name`` of a side or class."""

    slot: str
    first: int
    stop: int
    value: int = 0
    name: str = ""


class Hit(NamedTuple):
    """Tokens ``first`` to ``stop`` (exclusive) say ``entry`` of ``group``, its slots filled in order."""

    first: int
    stop: int
    group: str
    entry: Entry
    fillers: tuple[Filler, ...]

    @property
    def values(self) -> tuple[int, ...]:
        """The numbers said, in order."""
        return tuple(
            filler.value for filler in self.fillers if filler.slot in ("<n>", "<z>", "<nth>", "<noun>")
        )

    def side(self, sides: Sequence[str]) -> str | None:
        """The claim's side by the competitor slot, where there is one that is known."""
        named = [filler.name for filler in self.fillers if filler.slot in SIDES]
        if not named or named[0] not in sides or self.entry.who not in ("own", "other"):
            return None
        if self.entry.who == "own":
            return named[0]
        return next(side for side in sides if side != named[0])


class _Node:
    __slots__ = ("ends", "slots", "words")

    def __init__(self) -> None:
        self.words: dict[str, _Node] = {}
        self.slots: dict[str, _Node] = {}
        self.ends: list[tuple[str, Entry]] = []


class Matcher:
    """A tree of every phrase of every group."""

    def __init__(self, groups: Mapping[str, Iterable[Entry]]) -> None:
        self._root = _Node()
        for group, entries in groups.items():
            for entry in entries:
                for phrase in entry.say:
                    self._add(group, entry, phrase)

    def _add(self, group: str, entry: Entry, phrase: str) -> None:
        for pieces in product(*(piece.split("/") for piece in phrase.split())):
            node = self._root
            for piece in pieces:
                children = node.slots if piece.startswith("<") else node.words
                node = children.setdefault(piece, _Node())
            node.ends.append((group, entry))

    def find(
        self, words: Sequence[str], gaps: Sequence[int], fillers: Sequence[tuple[Filler, ...]]
    ) -> tuple[Hit, ...]:
        """Every phrase said, overlapping ones too, by first token; none crosses a statement's end."""
        hits: list[Hit] = []
        root = self._root
        for first, word in enumerate(words):
            if word in root.words or fillers[first]:
                self._walk(root, first, first, (), words, gaps, fillers, hits)
        return tuple(hits)

    def _walk(
        self,
        node: _Node,
        first: int,
        at: int,
        filled: tuple[Filler, ...],
        words: Sequence[str],
        gaps: Sequence[int],
        fillers: Sequence[tuple[Filler, ...]],
        hits: list[Hit],
    ) -> None:
        for group, entry in node.ends:
            hits.append(Hit(first, at, group, entry, filled))
        if at == len(words) or (at > first and gaps[at] == 2):
            return
        following = node.words.get(words[at])
        if following is not None:
            self._walk(following, first, at + 1, filled, words, gaps, fillers, hits)
        if not node.slots:
            return
        for filler in fillers[at]:
            following = node.slots.get(filler.slot)
            if following is not None:
                self._walk(following, first, filler.stop, (*filled, filler), words, gaps, fillers, hits)
        following = node.slots.get("<any>")
        if following is not None:
            self._walk(following, first, at + 1, filled, words, gaps, fillers, hits)
