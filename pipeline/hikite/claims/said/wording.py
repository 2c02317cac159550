"""The phrases by which one language says scores, clocks and procedure: ``lexicon/<lang>/said/*.toml``."""

import tomllib
from functools import cache
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.records import Status
from hikite.terms.places import lexicon_root

Group = Literal[
    "attack_before", "award_after", "award_anew", "award_asked", "award_before", "award_dress",
    "award_instead", "award_lowered", "award_unit", "award_whole", "award_withdrawn", "class_after",
    "class_before", "class_count",
    "class_not_after", "class_not_before", "class_sign",
    "clock", "clock_after", "clock_alone", "clock_before",
    "clock_pair",
    "count_after", "count_before", "count_each", "count_mark", "count_more", "count_not_after",
    "count_not_before", "count_of_all", "denial", "elsewhere", "figure_before", "hold",
    "landing", "landing_before", "list_has", "list_join", "list_none", "list_owner", "list_penalty",
    "list_whose", "not_supposing", "nothing", "number_or_attack",
    "penalty", "penalty_after", "penalty_before", "penalty_paid", "penalty_reason", "penalty_towards",
    "penalty_withdrawn",
    "position",
    "result", "righted", "stoppage", "sum_before", "sum_is", "sum_join", "sum_owner",
    "supposing", "tally", "tally_before", "tally_in", "tally_never_after", "tally_never_before", "tally_or",
    "tally_supposed", "tally_withdrawn",
    "total_before", "unit", "versus",
]  # fmt: skip


_WHOLE = ("closed", "classes", "spoken_out", "glued", "misheard")


class Entry(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Phrases that say the same thing, and what that is.

    A phrase is words with slots: ``<n>`` a number, ``<z>`` a number or a word for nothing, ``<noun>`` a noun
    that is one ("pair"), ``<nth>`` an ordinal, ``<mss>`` a clock written
    as one figure ("340" is 3:40), ``<zz>`` two numbers so written ("84"),
    ``<side>`` words for a competitor, ``<name>`` the same but no
    pronoun, ``<class>`` a judo score, ``<any>`` one word; ``a/b`` is either word, ``/a/b``
    either or none, ``as_well`` two words as one of them. ``times`` are the seconds
    one of each number slot counts, ``plus`` what is added. ``who``: the competitor slot is the claim's
    ``own`` side or the ``other``; ``both`` are
    meant without one. ``weight`` is evidence in log odds. ``alone`` asks for a pause or mark on
    that side; ``opening`` for a statement's end on the left, ``sentence`` on both sides; ``under`` for a
    sport that counts so. The concept ``-`` marks words that only look like the group's ("fair play" is no
    call). ``names`` are concepts, or forms, of the lexicon that say the same however they were met.
    """

    say: tuple[str, ...]
    concept: str = ""
    status: Status | None = None
    who: Literal["own", "other", "both"] = "own"
    times: tuple[float, ...] = ()
    plus: int = 0
    weight: float = 0.0
    of: str | None = None
    elapsed: bool = False
    points: int | None = None
    fell: bool | None = None
    alone: Literal["", "left", "right", "both", "opening", "sentence"] = ""
    under: Literal["", "points", "classes"] = ""
    names: tuple[str, ...] = ()


class Numbers(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Number words beyond the library's, and the words it may be asked about."""

    language: str
    words: tuple[str, ...]
    joins: tuple[str, ...]
    zeros: tuple[str, ...]
    nouns: dict[str, int]
    determiners: tuple[str, ...]
    ordinals: dict[str, int]
    endings: tuple[str, ...]
    counted: tuple[str, ...]
    level: tuple[str, ...]
    timed: tuple[str, ...]
    stretched: tuple[str, ...]
    left: tuple[str, ...]
    digits: tuple[str, ...]
    heard: dict[str, int]
    heard_before: dict[str, tuple[str, ...]]
    heard_last: tuple[str, ...]
    heard_last_never: tuple[str, ...] = ()

    def __hash__(self) -> int:
        """By the language: there is one of them for each."""
        return hash(self.language)


class Wording(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One language's phrases by group; ``closed`` are words that may follow a score, ``classes`` judo's,
    ``misheard`` what a recogniser writes for words of judo's that it does not know."""

    numbers: Numbers
    closed: tuple[str, ...]
    classes: dict[str, tuple[str, ...]]
    spoken_out: dict[str, tuple[str, ...]]
    glued: dict[str, str]
    misheard: dict[str, tuple[str, ...]] = {}
    groups: dict[Group, tuple[Entry, ...]]


@cache
def load_wording(language: str = "en") -> Wording:
    """One language's phrases; LexiconError when a file is missing, broken or has an unknown key."""
    folder = lexicon_root() / language
    numbers = _parsed(folder / "numbers.toml")
    said: dict[str, object] = {}
    groups: dict[str, object] = {}
    for file in sorted((folder / "said").iterdir(), key=lambda file: file.name):
        for key, value in _parsed(file).items():
            whole = key in _WHOLE
            (said if whole else groups)[key] = value
            if not whole:
                _check(file, {key: value})
    try:
        return Wording.model_validate({**said, "groups": groups, "numbers": numbers})
    except ValidationError as problem:
        raise LexiconError(str(problem), file=str(folder / "said")) from problem


class _Groups(BaseModel, frozen=True, extra="forbid", defer_build=True):
    groups: dict[Group, tuple[Entry, ...]]


def _check(file: Traversable, groups: dict[str, object]) -> None:
    try:
        _Groups.model_validate({"groups": groups})
    except ValidationError as problem:
        first = problem.errors()[0]
        group, *rest = first["loc"][1:]
        nth = [part for part in first["loc"] if isinstance(part, int)]
        message = f"[[{group}]] {'.'.join(map(str, rest)).strip('.')}: {first['msg']}"
        raise LexiconError(
            message, file=str(file), line=_line(file, str(group), nth[0] if nth else 0)
        ) from problem


def _line(file: Traversable, group: str, nth: int) -> int:
    """The line of a group's entry, counted from 1."""
    lines = file.read_text("utf-8").splitlines()
    heads = [number for number, line in enumerate(lines, 1) if line.strip() == f"[[{group}]]"]
    return heads[nth] if nth < len(heads) else 1


def _parsed(file: Traversable) -> dict[str, object]:
    try:
        return tomllib.loads(file.read_text("utf-8"))
    except (tomllib.TOMLDecodeError, OSError) as problem:
        raise LexiconError(str(problem), file=str(Path(str(file)))) from problem
