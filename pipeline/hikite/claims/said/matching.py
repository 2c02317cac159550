"""Phrases with slots, found in one pass over the words."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from hikite.claims.said.gaps import HARD
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


# What follows a place in the tree, by word and by slot, and the entries that a phrase ending there says.
Node = tuple[dict[str, "Node"], dict[str, "Node"], tuple[tuple[str, Entry], ...]]


class _Shoot:
    """A node while the tree grows."""

    __slots__ = ("ends", "slots", "words")

    def __init__(self) -> None:
        self.words: dict[str, _Shoot] = {}
        self.slots: dict[str, _Shoot] = {}
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


# The words that are meant, and where those that were written stop.
Meant = tuple[tuple[str, ...], int]


class Stream(NamedTuple):
    """Words with the gap before each (and after the last), and what may fill a slot from each on.

    ``meant`` are words that a recogniser wrote as others, with where they stop, by where they begin.
    """

    words: Sequence[str]
    gaps: Sequence[int]
    fillers: Sequence[tuple[Filler, ...]]
    meant: Mapping[int, Meant] = {}

    def backwards(self) -> "Stream":
        """The same read from its end, for phrases that must end at a place."""
        count = len(self.words)
        fillers: list[tuple[Filler, ...]] = [()] * (count + 1)
        for several in self.fillers:
            for slot, first, stop, value, name in several:
                fillers[count - stop] += (Filler(slot, count - stop, count - first, value, name),)
        meant = {count - stop: (word[::-1], count - first) for first, (word, stop) in self.meant.items()}
        return Stream(self.words[::-1], self.gaps[::-1], fillers, meant)


class Matcher:
    """A tree of the phrases of some groups, to be met reading forwards or backwards."""

    def __init__(self, wording: Wording, groups: Iterable[Group], *, backwards: bool = False) -> None:
        self._backwards = backwards
        begun: dict[str, list[tuple[tuple[str, Entry], tuple[str, ...]]]] = {}
        for group in groups:
            for entry in wording.groups.get(group, ()):
                for spelling in {one for phrase in entry.say for one in spellings(phrase, wording)}:
                    pieces = tuple(spelling.split())
                    for word, rest in self._begins(pieces[::-1] if backwards else pieces):
                        begun.setdefault(word, []).append(((group, entry), rest))
        # One first word after the other: all phrases at once would take many times as much memory.
        known: dict[object, Node] = {}
        nodes = {word: self._grown_from(phrases, known) for word, phrases in begun.items()}
        slots = {word: node for word, node in nodes.items() if word.startswith("<")}
        self._root: Node = ({word: node for word, node in nodes.items() if word not in slots}, slots, ())

    def _begins(self, pieces: tuple[str, ...]) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Each word that a phrase may begin with, and the pieces behind it."""
        for one in pieces[0].split("/"):
            words = one.split("_") if one else []
            if words:
                first, *more = reversed(words) if self._backwards else words
                yield first, (*more, *pieces[1:])
            else:
                yield from self._begins(pieces[1:])

    def _grown_from(
        self, phrases: Iterable[tuple[tuple[str, Entry], tuple[str, ...]]], known: dict[object, Node]
    ) -> Node:
        """The finished node behind a first word, from all that goes on there."""
        root = _Shoot()
        for end, pieces in phrases:
            nodes = [root]
            for piece in pieces:
                nodes = [self._after(node, one) for node in nodes for one in piece.split("/")]
            for node in nodes:
                if end not in node.ends:
                    node.ends.append(end)
        return _grown(root, known)

    def _after(self, node: _Shoot, piece: str) -> _Shoot:
        """The node after one alternative: itself for an empty one, several further for ``as_well``."""
        words = piece.split("_") if piece else ()
        for word in reversed(words) if self._backwards else words:
            children = node.slots if word.startswith("<") else node.words
            child = children.get(word)
            if child is None:
                child = children[word] = _Shoot()
            node = child
        return node

    def find(self, stream: Stream) -> tuple[Hit, ...]:
        """Every phrase said, overlapping ones too, by first token; none crosses a statement's end."""
        hits: list[Hit] = []
        words, slots, _ = self._root
        said, fillers = stream.words, stream.fillers
        following = [*said[1:], ""]
        for first, node in enumerate(map(words.get, said)):
            # Most words that begin a phrase do not go on as one: looking one word ahead saves the walk.
            if node is not None and (
                node[2] or node[1] or following[first] in node[0] or first + 1 in stream.meant
            ):
                _walk(node, first, first + 1, (), stream, hits)
            for filler in fillers[first]:
                if filler.slot in slots:
                    _walk(slots[filler.slot], first, filler.stop, (filler,), stream, hits)
        for first, (several, stop) in stream.meant.items():
            if (behind := _through(self._root, several)) is not None:
                _walk(behind, first, stop, (), stream, hits)
        return tuple(hits)

    def at(self, stream: Stream, first: int) -> tuple[Hit, ...]:
        """The phrases that begin at a token (reading backwards: end there), in the talk's own places."""
        hits: list[Hit] = []
        words, slots, _ = self._root
        # Asked at every number and name, and most often nothing begins there.
        if first < len(stream.words) and (
            stream.words[first] in words
            or (slots and stream.fillers[first])
            or "<any>" in slots
            or first in stream.meant
        ):
            _walk(self._root, first, first, (), stream, hits)
        if self._backwards and hits:
            return tuple([_turned(hit, len(stream.words)) for hit in hits])
        return tuple(hits)


def _grown(shoot: _Shoot, known: dict[object, Node]) -> Node:
    """The finished node; nodes from which the same goes on are one, since "a/the" doubles all behind it."""
    words = {word: _grown(child, known) for word, child in shoot.words.items()}
    slots = {slot: _grown(child, known) for slot, child in shoot.slots.items()}
    key = (
        frozenset([(word, id(child)) for word, child in words.items()]),
        frozenset([(slot, id(child)) for slot, child in slots.items()]),
        tuple([(group, id(entry)) for group, entry in shoot.ends]),
    )
    return known.setdefault(key, (words, slots, tuple(shoot.ends)))


def _walk(
    node: Node, first: int, at: int, filled: tuple[Filler, ...], stream: Stream, hits: list[Hit]
) -> None:
    """Collect the phrases that go on from a node at a token."""
    said, gaps, _, meant = stream
    while True:
        words, slots, ends = node
        for group, entry in ends:
            hits.append(Hit(first, at, group, entry, filled))
        if at == len(said) or (at > first and gaps[at] == HARD):
            return
        following = words.get(said[at])
        if slots or at in meant:
            break
        if following is None:
            return
        node, at = following, at + 1
    if following is not None:
        _walk(following, first, at + 1, filled, stream, hits)
    if at in meant and (behind := _through(node, meant[at][0])) is not None:
        _walk(behind, first, meant[at][1], filled, stream, hits)
    for filler in stream.fillers[at]:
        following = slots.get(filler.slot)
        if following is not None:
            _walk(following, first, filler.stop, (*filled, filler), stream, hits)
    following = slots.get("<any>")
    if following is not None:
        _walk(following, first, at + 1, filled, stream, hits)


def _through(node: Node, several: Iterable[str]) -> Node | None:
    """The node behind several words, where a phrase goes on so."""
    found: Node | None = node
    for word in several:
        found = found[0].get(word) if found is not None else None
    return found


def _turned(hit: Hit, count: int) -> Hit:
    """A hit met backwards, in the talk's own places and order."""
    fillers = tuple(
        [
            Filler(filler.slot, count - filler.stop, count - filler.first, filler.value, filler.name)
            for filler in reversed(hit.fillers)
        ]
    )
    return Hit(count - hit.stop, count - hit.first, hit.group, hit.entry, fillers)
