"""Which variant of a technique or grip is meant, read from the words in, before and behind its name."""

import tomllib
from collections.abc import Iterable
from functools import cache

from pydantic import BaseModel, RootModel, ValidationError

from hikite.errors import LexiconError
from hikite.mentions.covers import Option
from hikite.terms.places import lexicon_root

_BEFORE, _AFTER = 3, 4
Phrases = dict[str, list[tuple[list[str], str]]]


class Wording(BaseModel, frozen=True, extra="forbid"):
    """The phrases that give one attribute, by where they stand, and the words behind which they give none."""

    before: tuple[str, ...]
    after: tuple[str, ...]
    inside: tuple[str, ...]
    unless: tuple[str, ...] = ()


class Wordings(RootModel[dict[str, Wording]], frozen=True):
    """The typed content of ``lexicon/<lang>/attributes.toml``."""


@cache
def load_wordings(language: str) -> Wordings:
    """The attribute words of one language, none where it has no file; LexiconError on a broken file."""
    file = lexicon_root() / language / "attributes.toml"
    if not file.is_file():
        return Wordings({})
    try:
        return Wordings.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem


class Attributes:
    """The attribute phrases of one language by their first word and by where they stand."""

    def __init__(self, language: str) -> None:
        wordings = load_wordings(language).root
        self._order = {name: number for number, name in enumerate(wordings)}
        self._unless = {name: frozenset(wording.unless) for name, wording in wordings.items()}
        self._before, self._inside, self._after = (
            _by_word((name, getattr(wording, place)) for name, wording in wordings.items())
            for place in ("before", "inside", "after")
        )

    def leads(self, words: str) -> bool:
        """Whether the words in front of a name give an attribute of it."""
        return any(pieces == words.split() for pieces, _ in self._before.get(words.partition(" ")[0], ()))

    def trails(self, words: str) -> bool:
        """Whether the words behind a name give an attribute of it."""
        return any(pieces == words.split() for pieces, _ in self._after.get(words.partition(" ")[0], ()))

    def of(
        self, words: list[str], first: int, stop: int, view: tuple[int, int], best: Option
    ) -> tuple[str, ...]:
        """The attributes of the name in words ``first`` to ``stop``; ``view`` bounds the words looked at.

        What the form of the ``best`` candidate says is no attribute of it: a "cross armlock" is not a crossed
        one. A "standing seoi nage" is a standing one, since what is left names the concept.
        """
        inside = _met(self._inside, words, first, stop)
        if inside:
            own, bare = _words_of(best.form), _words_of(best.concept)
            inside = [met for met in inside if not own.issuperset(met[2]) or own.difference(met[2]) == bare]
        met = (
            *_met(self._before, words, max(view[0], first - _BEFORE), first),
            *inside,
            *_met(self._after, words, stop, min(view[1], stop + _AFTER)),
        )
        given = {name for at, name, _ in met if not at or not self._belongs(words[at - 1], name)}
        return tuple(sorted(given, key=self._order.__getitem__))

    def _belongs(self, word: str, name: str) -> bool:
        """Whether what looks like an attribute belongs to the word before it: "4:15 left"."""
        unless = self._unless[name]
        return word in unless or (bool(unless) and word[0].isdigit())


@cache
def attributes_of(language: str) -> Attributes:
    """The attribute phrases of one language, laid out once."""
    return Attributes(language)


def _words_of(form: str) -> set[str]:
    return set(form.replace("-", " ").replace("~", " ").split())


def _by_word(phrases: Iterable[tuple[str, tuple[str, ...]]]) -> Phrases:
    index: Phrases = {}
    for name, several in phrases:
        for phrase in several:
            pieces = phrase.split()
            index.setdefault(pieces[0], []).append((pieces, name))
    return index


def _met(phrases: Phrases, words: list[str], first: int, stop: int) -> list[tuple[int, str, list[str]]]:
    """The attributes whose phrases stand whole between two places: where, and with which words."""
    return [
        (at, name, pieces)
        for at in range(first, stop)
        if words[at] in phrases
        for pieces, name in phrases[words[at]]
        if at + len(pieces) <= stop and words[at : at + len(pieces)] == pieces
    ]
