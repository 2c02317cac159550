"""Which names are looked for by sound: those a speaker uses as a name and a recogniser may garble."""

from hikite.sounds import Ear, squash
from hikite.terms import Name, Terms

_OWN_KINDS = frozenset({"technique", "grip", "hold", "score", "penalty", "principle", "stoppage"})
# What a referee calls is called in the languages commentary borrows from, in no other.
_CALLS = frozenset({"score", "penalty", "stoppage"})
_OWN_WORDS, _GUEST_WORDS = 3, 5
# Shorter foreign names that are everyday words too, and longer words of languages seldom borrowed from.
_TELLING, _UNMISTAKABLE = 5, 7
# Names made of words as common as these on average ("goes on") have too many neighbours in plain speech.
_EVERYDAY = 11.0


def spoken_names(terms: Terms, ear: Ear, language: str, guests: tuple[str, ...]) -> tuple[Name, ...]:
    """The names to be looked for by sound, best attested first, so that those lead where names sound alike.

    A name in another script is read only where the concept has none in letters, since both sound the same.
    """
    lettered = {(name.concept, name.language) for name in terms.names if name.script == "latin"}
    chosen = []
    for name in terms.names:
        if "~" in name.form or (name.script != "latin" and (name.concept, name.language) in lettered):
            continue
        if name.language == language:
            fit = _own(name, terms, ear)
        else:
            guest = name.language in guests
            fit = _borrowed(name, guest) and (guest or terms.concepts[name.concept].kind not in _CALLS)
        if fit:
            chosen.append(name)
    return tuple(sorted(chosen, key=lambda name: (name.heard, name.mark == "memory")))


def _own(name: Name, terms: Terms, ear: Ear) -> bool:
    """Names in the commentary's own language: no everyday words, no descriptions, no single family words."""
    concept, words = terms.concepts[name.concept], name.form.replace("-", " ").split()
    if name.weak or name.verb or concept.kind not in _OWN_KINDS or len(words) > _OWN_WORDS:
        return False
    # What a recogniser wrote in plain words ("eye yacht sue") sounds like the name itself.
    if name.heard and len(words) > 1 and all(ear.level(squash(word)) for word in words):
        return False
    return (len(words) > 1 or not concept.generic) and commonness(words, ear) < _EVERYDAY


def _borrowed(name: Name, guest: bool) -> bool:
    """Names of other languages: all that commentary borrows, of the rest what is unmistakable."""
    words = name.form.replace("-", " ").split()
    if len(words) > _GUEST_WORDS or (name.weak and len(squash(name.form)) < _TELLING):
        return False
    return guest or ((len(words) == 1 or name.mark == "published") and len(squash(name.form)) > _UNMISTAKABLE)


def commonness(words: list[str], ear: Ear) -> float:
    """How common the words are on average, in the ear's levels."""
    return sum(ear.level(squash(word)) for word in words) / max(len(words), 1)
