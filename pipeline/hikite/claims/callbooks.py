"""The referee's calls of a language, and whether one is meant where words sound like it."""

import tomllib
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ValidationError

from hikite.claims.references import Reference
from hikite.claims.said.gaps import NONE, parted
from hikite.claims.said.matching import SIDES
from hikite.claims.said.slots import PRONOUNS
from hikite.claims.said.wording import load_wording
from hikite.errors import LexiconError
from hikite.records import Kind, Talk
from hikite.sounds import load_ear
from hikite.terms.places import lexicon_root

# A word no commoner than this (half decades of its count) is hardly one, unless it is a letter or a clitic.
# Set by hand.
_ODD = 3


def _split(phrase: object) -> object:
    """A phrase as its words."""
    return tuple(phrase.split()) if isinstance(phrase, str) else phrase


Phrase = Annotated[tuple[str, ...], BeforeValidator(_split)]


class Call(BaseModel, frozen=True, extra="forbid"):
    """One call of ``lexicon/<lang>/calls.toml``; the file's head tells what its limits and phrases are."""

    kind: Kind
    say: str
    many: str = ""
    odd: float
    plain: float
    within: float
    alone: bool = False
    before: tuple[Phrase, ...] = ()
    after: tuple[Phrase, ...] = ()
    never: tuple[Phrase, ...] = ()
    never_before: tuple[Phrase, ...] = ()
    never_after: tuple[Phrase, ...] = ()


@cache
def load_calls(language: str) -> dict[str, Call]:
    """The calls of one language by concept, none where it has no file; LexiconError where it is broken."""
    file = lexicon_root() / language / "calls.toml"
    if not file.is_file():
        return {}
    try:
        told = tomllib.loads(file.read_text("utf-8"))
        return {concept: Call.model_validate(call) for concept, call in told.items()}
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem


class Beside:
    """What stands beside a place of the talk; ``gaps`` are the written ones."""

    def __init__(
        self, talk: Talk, gaps: Sequence[int], references: Sequence[Reference], language: str
    ) -> None:
        self._words, self._language = talk.texts, language
        self._gaps = parted(gaps, talk.halts)
        self._ahead = {one.first: one for one in references}
        self._behind = {one.stop: one for one in references}
        numbers = load_wording(language).numbers
        self._numbers, self._ordinals = frozenset(numbers.words), numbers.ordinals
        self._single = frozenset((numbers.words[0], "1"))

    def meant(self, concept: str, first: int, stop: int, apart: float) -> bool:
        """Whether words that sound like a call, ``apart`` so far a sound, are one where they stand."""
        call = load_calls(self._language)[concept]
        ear = load_ear(self._language)
        words = self._words[first:stop]
        odd = any(ear.level(word) <= _ODD for word in words if len(word) > 1 and word.isalpha())
        if not odd and (tuple(words) in call.never or self._denied(call, first, stop)):
            return False
        if apart <= (call.odd if odd else call.plain):
            return True
        alone = call.alone and self._gaps[first] != NONE and self._gaps[stop] != NONE
        return (
            (alone and apart <= call.odd) or self._ends(call.before, first) or self._starts(call.after, stop)
        )

    def several(self, first: int) -> bool:
        """Whether a number above one counts what begins at a token."""
        before = self._words[first - 1] if first else ""
        return before not in self._single and self._fills("<n>", before)

    def _denied(self, call: Call, first: int, stop: int) -> bool:
        """Whether what stands beside everyday words, or begins them, speaks against a call."""
        before = self._ends(call.never_before, first) or self._ends(call.never_before, first + 1)
        return before or self._starts(call.never_after, stop)

    def _starts(self, phrases: Iterable[Phrase], at: int) -> bool:
        """Whether one of the phrases begins at a token."""
        return any(self._met(phrase, at) for phrase in phrases)

    def _ends(self, phrases: Iterable[Phrase], at: int) -> bool:
        """Whether one of the phrases ends right before a token."""
        return any(self._met(phrase[::-1], at, back=True) for phrase in phrases)

    def _met(self, phrase: Phrase, at: int, *, back: bool = False) -> bool:
        """Whether what a phrase asks for stands from a token on, or before it read ``back``."""
        people, end = (self._behind, 0) if back else (self._ahead, len(self._words))
        for piece in phrase:
            if piece == "<end>":
                return self._gaps[at] != NONE
            if at == end:
                return False
            if (one := _filled(piece, people.get(at))) is not None:
                at = one.first if back else one.stop
            elif self._fills(piece, self._words[at - back]):
                at += -1 if back else 1
            else:
                return False
        return True

    def _fills(self, piece: str, word: str) -> bool:
        """Whether a word is what a phrase asks for."""
        if piece == "<n>":
            return word in self._numbers or word.isdecimal()
        return word in self._ordinals if piece == "<nth>" else word == piece


def _filled(piece: str, one: Reference | None) -> Reference | None:
    """Whoever is pointed at, where a phrase asks for somebody like that."""
    if one is None or piece not in SIDES:
        return None
    return one if piece == "<side>" or one.how not in PRONOUNS else None
