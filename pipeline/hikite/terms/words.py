"""What the lexicon knows: concepts in families, the names that mean them, and their links."""

import unicodedata
from collections.abc import Iterator
from functools import cached_property, lru_cache
from typing import Literal

from pydantic import BaseModel

from hikite.records import Kind

Script = Literal["latin", "cyrillic", "kana", "kanji"]
Mark = Literal["published", "inference", "memory", "contradicted"]


class Concept(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One thing a speaker may name, under an id that never changes.

    ``family`` is the concept it is a kind of, absent at a root; ``generic`` marks a family word that
    names no single technique. ``same_as`` counts as equal, ``near`` is only akin; a counter
    ``answers`` what it is named for: o-soto-gaeshi o-soto-gari. ``weight`` says how often a
    bout is likely to need it, from 0 to 9, by the front part of a rule set's key (``judo``, ``uww.fs``),
    ``hint`` by the same keys the name a recogniser should be told; both are common practice,
    no source. ``under`` gives, by the same keys, what it is called under some rules. ``caution`` marks
    what injures easily or is prohibited in some rule set, ``afoot`` a family of what begins standing.
    """

    id: str
    kind: Kind
    family: str | None = None
    tradition: str
    generic: bool = False
    same_as: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    answers: tuple[str, ...] = ()
    gloss: str
    source: str = ""
    mark: Mark
    caution: bool = False
    afoot: bool = False
    weight: dict[str, int] = {}
    hint: dict[str, str] = {}
    under: dict[str, str] = {}


class Name(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One way to name a concept.

    ``form`` is lower case, as written; one ``~`` in it stands for up to three words in between, or none:
    ``snap ~ down`` is met in "snaps him down", "snapped Kovar's head down" and "snapping down". Regular
    endings of a form, and of either side of a ``~``, are the matcher's to add; irregular ones are listed.
    ``verb`` marks a verb form. ``weak`` marks ordinary words that mean the concept only near other
    grappling words or an actor. ``heard`` marks a misspelling or what a recogniser makes of the name:
    good for finding, not for showing. ``mark`` is ``memory`` for common practice without a source.
    """

    form: str
    concept: str
    language: str
    script: Script = "latin"
    verb: bool = False
    weak: bool = False
    heard: bool = False
    source: str = ""
    mark: Mark = "memory"


# What a normalised form drops, for the plain case of ASCII; it is asked for every name at every start.
_DROPPED = {code: None for code in range(128) if not chr(code).isalnum() and chr(code) != "~"}


@lru_cache(maxsize=1 << 15)
def normalised(form: str) -> str:
    """Letters, digits and ``~`` alone, case folded, accents dropped: ``Uchi-mata`` is ``uchimata``."""
    text = form.casefold().translate(_DROPPED)
    if text.isascii():
        return text
    split = unicodedata.normalize("NFKD", text)
    text = unicodedata.normalize("NFC", "".join(c for c in split if not "\u0300" <= c <= "\u036f"))
    return "".join(c for c in text if c.isalnum() or c == "~")


def script_of(form: str) -> Script:
    """The script a form is written in; kanji mixed with kana is ``kanji``."""
    if form.isascii():
        return "latin"
    if any("\u4e00" <= c <= "\u9fff" for c in form):
        return "kanji"
    if any("\u3040" <= c <= "\u30ff" for c in form):
        return "kana"
    return "cyrillic" if any("\u0400" <= c <= "\u04ff" for c in form) else "latin"


class Terms(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The whole lexicon.

    ``names`` holds one entry for each form and concept: a form with several meanings stands there once
    for each. ``ambiguous`` gives, by normalised form, all the concepts that such a form may mean,
    likeliest first. ``version`` is a hash of everything read.
    """

    concepts: dict[str, Concept]
    names: tuple[Name, ...]
    ambiguous: dict[str, tuple[str, ...]]
    version: str

    def same(self, one: str, other: str) -> bool:
        """Whether two ids are one concept or linked as the same, directly or through others."""
        return one == other or (one in self._classes and self._classes[one] is self._classes.get(other))

    def is_a(self, concept: str, family: str) -> bool:
        """Whether a concept is the family or belongs to it, at any depth; false for unknown ids."""
        return family in self.families(concept)

    def families(self, concept: str) -> Iterator[str]:
        """The concept and its families, nearest first."""
        at: str | None = concept
        while at is not None and (found := self.concepts.get(at)) is not None:
            yield at
            at = found.family

    def names_of(self, concept: str) -> tuple[Name, ...]:
        """Every name of one concept, in file order."""
        return self._by_concept.get(concept, ())

    def name(self, concept: str, form: str) -> Name | None:
        """The last name of a concept in just this form, if it has one."""
        return self._by_both.get((concept, form))

    def lookup(self, form: str) -> tuple[str, ...]:
        """The concepts a form names, likeliest first, whatever its case, hyphens and accents."""
        key = normalised(form)
        return self.ambiguous.get(key) or self._by_form.get(key, ())

    @cached_property
    def _by_concept(self) -> dict[str, tuple[Name, ...]]:
        found: dict[str, list[Name]] = {}
        for name in self.names:
            found.setdefault(name.concept, []).append(name)
        return {concept: tuple(names) for concept, names in found.items()}

    @cached_property
    def _by_both(self) -> dict[tuple[str, str], Name]:
        return {(name.concept, name.form): name for name in self.names}

    @cached_property
    def _by_form(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, tuple[str, ...]] = {}
        for name in self.names:
            key = normalised(name.form)
            if name.concept not in found.get(key, ()):
                found[key] = (*found.get(key, ()), name.concept)
        return found

    @cached_property
    def _classes(self) -> dict[str, frozenset[str]]:
        classes: dict[str, frozenset[str]] = {}
        for concept in self.concepts.values():
            for other in concept.same_as:
                one, two = (classes.get(each, frozenset({each})) for each in (concept.id, other))
                joined = one | two
                classes |= dict.fromkeys(joined, joined)
        return classes
