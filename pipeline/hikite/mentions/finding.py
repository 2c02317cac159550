"""The stage as one function, with the index of each lexicon kept for the next talk."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

from hikite.mentions.matcher import Matcher
from hikite.records import Mention, Talk
from hikite.terms import Terms


def find_mentions(talk: Talk, terms: Terms, language: str = "en") -> tuple[Mention, ...]:
    """Every mention in the talk, in order, without overlap; candidates best first."""
    return _matcher(_Keyed(terms, language)).find(talk)


class _Keyed:
    """A lexicon told apart by its content alone."""

    def __init__(self, terms: Terms, language: str) -> None:
        self.terms, self.language = terms, language

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Keyed) and (self.terms.version, self.language) == (
            other.terms.version,
            other.language,
        )

    def __hash__(self) -> int:
        return hash((self.terms.version, self.language))


@lru_cache(maxsize=4)
def _matcher(keyed: _Keyed) -> Matcher:
    with _undisturbed():
        return Matcher(keyed.terms, keyed.language)


@contextmanager
def _undisturbed() -> Iterator[None]:
    """No search for dead objects meanwhile: an index is many objects that all stay, each looked at again."""
    on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if on:
            gc.enable()
