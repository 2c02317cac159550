"""How a language's commentators speak: the typed content of ``lexicon/<lang>/talk.toml``."""

import tomllib
from functools import cache, partial
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.kept import kept
from hikite.terms.places import lexicon_root

# Words that are only asked for one by one; where they are said in order, or as phrases, there are tuples.
Words = frozenset[str]


class Clitics(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Pieces cut from the end of a word (``'s``), and stems that change when cut (``ca`` + ``n't``).

    ``unmarked`` are the words behind which a piece is known without its mark ("hes"); ``unmarked_all`` those
    behind which it is so only in a talk without any such mark ("its").
    """

    pieces: tuple[str, ...]
    stems: dict[str, str]
    unmarked: dict[str, tuple[str, ...]] = {}
    unmarked_all: dict[str, tuple[str, ...]] = {}


class Statements(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Words that open a statement in bare speech or cannot end one, and the pause that ends it.

    Numbers and endings are kinds of word that tell where it halts; before ``going_on`` phrases it never does.
    """

    openers: tuple[str, ...]
    unending: Words
    pause_ms: int
    longest: int
    joiners: Words
    numbers: Words = frozenset()
    ends: tuple[str, ...] = ()
    going_on: tuple[str, ...] = ()


class Actors(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The words by which a speaker points at a competitor without a name."""

    colours: dict[str, tuple[str, ...]]
    dress: dict[str, Words]
    colour_nouns: Words
    not_colours: Words
    subjects: tuple[str, ...]
    objects: tuple[str, ...]
    possessives: tuple[str, ...]
    opponents: tuple[str, ...]
    others: tuple[str, ...]
    own: tuple[str, ...]
    ours: tuple[str, ...]
    addressing: tuple[str, ...]
    warnings: Words
    spoken_to: tuple[str, ...]
    to_anybody: Words
    myself: tuple[str, ...]
    owning: Words
    both: tuple[str, ...]
    person_nouns: Words
    articles: tuple[str, ...]
    indefinite: Words
    devotees: Words
    fond: Words = frozenset()
    places: Words
    language_before: Words
    links: Words
    partings: Words
    origins: Words
    hailing: Words = frozenset()
    wearing: Words
    calling: tuple[str, ...]
    prepositions: Words
    giving: Words
    after_is: Words
    neighbours: Words
    taking_up: Words
    figures: Words
    demonym_endings: tuple[str, ...]
    not_actors: Words
    # Words of dialects and trades that the list of common words lacks and that are nobody's name.
    not_names: Words = frozenset()
    meetings: Words = frozenset()
    # Words for a nation's people that are first names as well.
    first_names: Words = frozenset()


class Again(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Words that name what was named last without naming it: "the same again", "that grip".

    ``of`` gives, by family, what is said of the last of that family alone; ``short`` are words that behind
    one of ``pointing`` stand for the last named technique with that word in its name ("the sweep");
    ``retold`` are families whose names are told once more in other words; ``anew`` are words that right
    behind a name tell of another attempt; ``denied`` are words that shortly before say that there was none.
    """

    technique: tuple[str, ...]
    grip: tuple[str, ...]
    of: dict[str, tuple[str, ...]]
    denied: Words = frozenset()
    pointing: Words
    short: Words
    retold: tuple[str, ...] = ()
    anew: Words = frozenset()


class CueScope(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """How far a cue reaches: to which side, how far, what ends the reach, what only looks like the cue."""

    direction: Literal["forward", "backward", "both"]
    reach: Literal["clause", "statement", "passage"]
    terminators: tuple[str, ...] = ()
    pseudo: tuple[str, ...] = ()


class Beside(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The word that another is a mishearing of where one of these stands right before or behind it; where
    ``unless`` tells words, everywhere but beside one of them."""

    word: str
    before: Words = frozenset()
    behind: Words = frozenset()
    unless: Words = frozenset()


class Refusal(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The words of a clause that only says no, and those that may stand around them."""

    words: Words = frozenset()
    around: Words = frozenset()


class Eras(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Phrases before a year and behind it that tell whose rules are fought under, and words beside it that
    tell of other days' rules."""

    before: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    other_days: Words = frozenset()


class Speech(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One language's way of commenting: ``cues`` gives a cue's phrases, ``scopes`` its reach; ``homophones``
    what a recogniser may write for which other word, ``beside`` what it then surely wrote for another."""

    clitics: Clitics
    homophones: dict[str, str] = {}
    beside: dict[str, Beside] = {}
    statements: Statements
    actors: Actors
    again: Again
    refusal: Refusal = Refusal()
    eras: Eras = Eras()
    cues: dict[str, tuple[str, ...]]
    scopes: dict[str, CueScope] = {}
    nations: dict[str, tuple[str, ...]] = {}


@cache
def load_speech(language: str) -> Speech:
    """The speech of one language; LexiconError when a file is missing, broken or has an unknown key."""
    return kept("speech", language, Speech, partial(_speech, language), {})


def _speech(language: str) -> Speech:
    folder = lexicon_root() / language
    try:
        data = tomllib.loads((folder / "talk.toml").read_text("utf-8"))
        nations = tomllib.loads((folder / "nations.toml").read_text("utf-8"))
        return Speech.model_validate({**data, "nations": nations})
    except (tomllib.TOMLDecodeError, ValidationError, OSError) as problem:
        raise LexiconError(str(problem), file=str(Path(str(folder)) / "talk.toml")) from problem
