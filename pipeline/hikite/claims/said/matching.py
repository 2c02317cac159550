"""Phrases with slots, found in one pass over the words."""

from collections.abc import Iterable, Sequence
from itertools import product
from typing import NamedTuple

from hikite.claims.said.wording import Entry, Wording
from hikite.records import Mention

SIDES = ("<side>", "<name>")
NUMBERS = ("<n>", "<z>", "<nth>", "<noun>", "<mss>")


class Filler(NamedTuple):
    """What fills a slot: tokens ``first`` to ``stop``; a number's ``value``, a side's or class's ``name``."""

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
        return tuple(filler.value for filler in self.fillers if filler.slot in NUMBERS)

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


def spellings(phrase: str, wording: Wording) -> set[str]:
    """The phrase as it stands, with its clitics spoken out, and with them glued on unmarked."""
    found = {phrase}
    for clitic, full in wording.spoken_out.items():
        found |= {
            one.replace(f" {clitic}", f" {word}") for one in found for word in full if f" {clitic}" in one
        }
    for clitic, letters in wording.glued.items():
        mark = f" {clitic} "
        found |= {one.replace(mark, f"{letters} ") for one in found if mark in one and f">{mark}" not in one}
    return found


class Matcher:
    """A tree of every phrase of every group."""

    def __init__(self, wording: Wording) -> None:
        self._root = _Node()
        self._named: dict[str, list[tuple[str, Entry]]] = {}
        for group, entries in wording.groups.items():
            for entry in entries:
                for phrase in entry.say:
                    for spelling in spellings(phrase, wording):
                        self._add(group, entry, spelling)
                for name in entry.names:
                    self._named.setdefault(name, []).append((group, entry))

    def named(self, mentions: Iterable[Mention]) -> tuple[Hit, ...]:
        """The mentions whose concept an entry lists, as if its phrase had been said."""
        return tuple(
            Hit(mention.first, mention.stop, group, entry, ())
            for mention in mentions
            for group, entry in self._named.get(mention.concept, ())
        )

    def _add(self, group: str, entry: Entry, phrase: str) -> None:
        for pieces in product(*(piece.split("/") for piece in phrase.split())):
            node = self._root
            for piece in pieces:
                children = node.slots if piece.startswith("<") else node.words
                node = children.setdefault(piece, _Node())
            if (group, entry) not in node.ends:
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
