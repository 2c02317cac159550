"""Phrases with slots, found in one pass over the words."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from hikite.claims.said.wording import Entry, Group, Wording

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


class Stream(NamedTuple):
    """Words with the gap before each (and after the last), and what may fill a slot from each on."""

    words: Sequence[str]
    gaps: Sequence[int]
    fillers: Sequence[tuple[Filler, ...]]

    def backwards(self) -> "Stream":
        """The same read from its end, for phrases that must end at a place."""
        count = len(self.words)
        fillers: list[tuple[Filler, ...]] = [()] * (count + 1)
        for filler in (filler for several in self.fillers for filler in several):
            turned = filler._replace(first=count - filler.stop, stop=count - filler.first)
            fillers[turned.first] += (turned,)
        return Stream(self.words[::-1], self.gaps[::-1], fillers)


class Matcher:
    """A tree of the phrases of some groups, to be met reading forwards or backwards."""

    def __init__(self, wording: Wording, groups: Iterable[Group], *, backwards: bool = False) -> None:
        self._root = _Node()
        self._backwards = backwards
        for group in groups:
            for entry in wording.groups.get(group, ()):
                for spelling in {one for phrase in entry.say for one in spellings(phrase, wording)}:
                    self._add(group, entry, spelling)

    def _add(self, group: Group, entry: Entry, phrase: str) -> None:
        pieces = phrase.split()
        nodes = [self._root]
        for piece in reversed(pieces) if self._backwards else pieces:
            nodes = [self._after(node, one) for node in nodes for one in piece.split("/")]
        for node in nodes:
            if (group, entry) not in node.ends:
                node.ends.append((group, entry))

    def _after(self, node: _Node, piece: str) -> _Node:
        """The node after one alternative: itself for an empty one, several further for ``as_well``."""
        words = piece.split("_") if piece else ()
        for word in reversed(words) if self._backwards else words:
            children = node.slots if word.startswith("<") else node.words
            child = children.get(word)
            if child is None:
                child = children[word] = _Node()
            node = child
        return node

    def find(self, stream: Stream) -> tuple[Hit, ...]:
        """Every phrase said, overlapping ones too, by first token; none crosses a statement's end."""
        hits: list[Hit] = []
        words, slots = self._root.words, self._root.slots
        last = len(stream.words) - 1
        for first, word in enumerate(stream.words):
            node = words.get(word)
            # Most words that begin a phrase do not go on as one: looking one word ahead saves the walk.
            if node is not None and (
                node.ends or node.slots or (first < last and stream.words[first + 1] in node.words)
            ):
                self._walk(node, first, first + 1, (), stream, hits)
            for filler in stream.fillers[first]:
                if filler.slot in slots:
                    self._walk(slots[filler.slot], first, filler.stop, (filler,), stream, hits)
        return tuple(hits)

    def at(self, stream: Stream, first: int) -> tuple[Hit, ...]:
        """The phrases that begin at a token (reading backwards: end there), in the talk's own places."""
        hits: list[Hit] = []
        if first < len(stream.words):
            self._walk(self._root, first, first, (), stream, hits)
        return tuple(_turned(hit, len(stream.words)) for hit in hits) if self._backwards else tuple(hits)

    def _walk(
        self,
        node: _Node,
        first: int,
        at: int,
        filled: tuple[Filler, ...],
        stream: Stream,
        hits: list[Hit],
    ) -> None:
        for group, entry in node.ends:
            hits.append(Hit(first, at, group, entry, filled))
        if at == len(stream.words) or (at > first and stream.gaps[at] == 2):
            return
        following = node.words.get(stream.words[at])
        if following is not None:
            self._walk(following, first, at + 1, filled, stream, hits)
        if not node.slots:
            return
        for filler in stream.fillers[at]:
            following = node.slots.get(filler.slot)
            if following is not None:
                self._walk(following, first, filler.stop, (*filled, filler), stream, hits)
        following = node.slots.get("<any>")
        if following is not None:
            self._walk(following, first, at + 1, filled, stream, hits)


def _turned(hit: Hit, count: int) -> Hit:
    """A hit met backwards, in the talk's own places and order."""
    fillers = tuple(
        filler._replace(first=count - filler.stop, stop=count - filler.first)
        for filler in reversed(hit.fillers)
    )
    return hit._replace(first=count - hit.stop, stop=count - hit.first, fillers=fillers)
