"""The stage as one function, with the index of each lexicon kept for the next talk."""

from functools import lru_cache, partial

from hikite.mentions.matcher import Matcher
from hikite.records import Mention, Talk
from hikite.sounds import load_ear
from hikite.terms import Terms
from hikite.terms.kept import kept


def find_mentions(talk: Talk, terms: Terms, language: str = "en") -> tuple[Mention, ...]:
    """Every mention in the talk, in order, without overlap; candidates best first."""
    return matcher_of(terms, language).find(talk)


def matcher_of(terms: Terms, language: str = "en") -> Matcher:
    """The index of a lexicon, the same for every talk."""
    return _matcher(_Keyed(terms, language))


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
    terms, language = keyed.terms, keyed.language
    known: dict[str, object] = {f"name {number}": name for number, name in enumerate(terms.names)}
    known |= {"terms": terms, "ear": load_ear(language)}
    make = partial(Matcher, terms, language)
    return kept("matcher", f"{terms.version} {language}", Matcher, make, known)
