"""Which variant of a technique or grip is meant, read from the words in, before and behind its name."""

import tomllib
from functools import cache

from pydantic import BaseModel, RootModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.places import lexicon_root

_BEFORE, _AFTER = 3, 4


class Wording(BaseModel, frozen=True, extra="forbid"):
    """The phrases that give one attribute, by where they stand."""

    before: tuple[str, ...]
    after: tuple[str, ...]
    inside: tuple[str, ...]


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


def attributes_of(
    words: tuple[str, ...], first: int, stop: int, low: int, high: int, wordings: Wordings
) -> tuple[str, ...]:
    """The attributes of the name in words ``first`` to ``stop``; ``low`` and ``high`` bound the view."""
    inside = f" {' '.join(words[first:stop])} "
    before = f" {' '.join(words[max(low, first - _BEFORE) : first])} "
    after = f" {' '.join(words[stop : min(high, stop + _AFTER)])} "
    return tuple(
        name
        for name, wording in wordings.root.items()
        if any(f" {phrase} " in inside for phrase in wording.inside)
        or any(f" {phrase} " in before for phrase in wording.before)
        or any(f" {phrase} " in after for phrase in wording.after)
    )
