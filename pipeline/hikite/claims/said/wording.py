"""The phrases by which one language says scores, clocks and procedure: ``lexicon/<lang>/said.toml``."""

import tomllib
from functools import cache
from pathlib import Path

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.records import Status
from hikite.terms.places import lexicon_root


class Entry(BaseModel, frozen=True, extra="forbid"):
    """Phrases that say the same thing, and what that is.

    A phrase is words with slots: ``<n>`` a number, ``<z>`` a number or a word for nothing, ``<nth>`` an
    ordinal, ``<side>`` words for a competitor, ``<class>`` a judo score, ``<any>`` one word of any kind;
    ``a/b`` stands for either word. ``times`` are the seconds (or points) one of each number slot counts,
    ``plus`` what is added. ``who`` says what the competitor slot is to the claim: its ``own`` side or the
    ``other``; ``weight`` is evidence in log odds.
    """

    say: tuple[str, ...]
    concept: str = ""
    status: Status | None = None
    who: str = "own"
    times: tuple[float, ...] = ()
    plus: int = 0
    weight: float = 0.0
    of: str | None = None
    elapsed: bool = False
    points: int | None = None
    fell: bool | None = None


class Numbers(BaseModel, frozen=True, extra="forbid"):
    """Number words beyond the library's, and the words it may be asked about."""

    language: str
    words: tuple[str, ...]
    joins: tuple[str, ...]
    zeros: tuple[str, ...]
    nouns: dict[str, int]
    determiners: tuple[str, ...]
    ordinals: dict[str, int]


class Wording(BaseModel, frozen=True, extra="forbid"):
    """One language's ``said.toml`` and ``numbers.toml``; ``closed`` are words that may follow a score."""

    numbers: Numbers
    closed: tuple[str, ...]
    classes: dict[str, tuple[str, ...]]
    groups: dict[str, tuple[Entry, ...]]


@cache
def load_wording(language: str = "en") -> Wording:
    """One language's phrases; LexiconError when a file is missing, broken or has an unknown key."""
    folder = lexicon_root() / language
    name = "numbers.toml"
    try:
        numbers = Numbers.model_validate(tomllib.loads((folder / name).read_text("utf-8")))
        name = "said.toml"
        data = tomllib.loads((folder / name).read_text("utf-8"))
        return Wording.model_validate({**data, "numbers": numbers})
    except (tomllib.TOMLDecodeError, ValidationError, OSError) as problem:
        raise LexiconError(str(problem), file=str(Path(str(folder)) / name)) from problem
