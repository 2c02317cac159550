"""The words that descriptions are made of, found in one pass over the talk."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product

from hikite.sounds import squash

# A slot in a phrase holds the article, the owner, the side: "over ~ shoulder".
_SLOT, _SLOT_WORDS = "~", 3
Span = tuple[int, int]


class _Node:
    """A place in the tree of phrases: what may follow there, and the phrases that end there."""

    __slots__ = ("ends", "slot", "words")

    def __init__(self) -> None:
        self.words: dict[str, _Node] = {}
        self.slot: _Node | None = None
        # Each phrase with the name of its set and whether a slot is in it.
        self.ends: list[tuple[str, str, bool]] = []


class Pieces:
    """Sets of phrases by name, as ``Wordings`` tells of them, in a tree word by word."""

    def __init__(
        self, sets: Mapping[str, Iterable[str]], verbs: Mapping[str, str], breaks: Iterable[str]
    ) -> None:
        self._breaks = frozenset(breaks)
        self._root = _Node()
        for name, phrases in sets.items():
            for phrase in dict.fromkeys(one for several in phrases for one in _spelt_out(several, verbs)):
                self._grow(phrase, name)

    def _grow(self, phrase: str, name: str) -> None:
        node, words = self._root, phrase.split()
        for word in words:
            if word != _SLOT:
                node = node.words.setdefault(squash(word), _Node())
            else:
                node.slot = node.slot or _Node()
                node = node.slot
        node.ends.append((phrase, name, _SLOT in words))

    def find(self, words: Sequence[str]) -> dict[str, list[Span]]:
        """Where the words of each set stand, in order: each phrase once from a word on, slots narrow."""
        spans: dict[str, list[Span]] = {}
        begun = self._root.words
        for at, node in enumerate(map(begun.get, words)):
            if node is None:
                continue
            narrowest: dict[tuple[str, str, bool], int] = {}
            _walk(node, at + 1, words, narrowest)
            for (_, name, slotted), stop in narrowest.items():
                if not slotted or self._breaks.isdisjoint(words[at:stop]):
                    spans.setdefault(name, []).append((at, stop))
        return spans


def _walk(node: _Node, at: int, words: Sequence[str], stops: dict[tuple[str, str, bool], int]) -> None:
    """Enter where each phrase that goes on from a node stops, at the first way it is met."""
    while True:
        for end in node.ends:
            stops.setdefault(end, at)
        if at == len(words):
            return
        following = node.words.get(words[at])
        if node.slot is not None:
            break
        if following is None:
            return
        node, at = following, at + 1
    if following is not None:
        _walk(following, at + 1, words, stops)
    for stop in range(at + 1, min(at + _SLOT_WORDS, len(words)) + 1):
        _walk(node.slot, stop, words, stops)


def _spelt_out(phrase: str, verbs: Mapping[str, str]) -> Iterator[str]:
    """Every phrase that one with alternatives and marked verbs stands for."""
    choices = [
        (word[:-1], *verbs[word[:-1]].split()) if word.endswith("+") else word.split("/")
        for word in phrase.split()
    ]
    return (" ".join(chosen) for chosen in product(*choices))
