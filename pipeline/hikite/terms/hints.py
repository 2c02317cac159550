"""Which names a speech recogniser should be told of before a bout."""

from collections.abc import Mapping
from typing import TypeVar

from hikite.terms.words import Concept, Name, Terms, normalised

Value = TypeVar("Value")


def hints(terms: Terms, ruleset: str, count: int) -> tuple[str, ...]:
    """At most ``count`` names that a bout under the rule set (``judo.2025``) is likeliest to need.

    Ranked by the concept's weight under the longest front part of the key that has one; at equal weight
    transliterated names first, since a recogniser knows them least; then by id. One name a concept: the
    ``hint`` its table gives for the rule set, else the name that its id spells, else its first in Latin
    letters, published before common. Weak, misheard and verb forms are left out. The weights are common
    practice, no source.
    """
    parts = ruleset.split(".")
    keys = [".".join(parts[:size]) for size in range(len(parts), 0, -1)]
    foreign = {name.language for name in terms.names if name.script != "latin"}
    ranked: list[tuple[int, bool, str, str]] = []
    for concept in terms.concepts.values():
        weight = _first(concept.weight, keys) or 0
        name = _shown(concept, terms.names_of(concept.id), _first(concept.hint, keys)) if weight else None
        if name is not None:
            ranked.append((-weight, name.language not in foreign, concept.id, name.form))
    return tuple(dict.fromkeys(form for *_, form in sorted(ranked)))[: max(count, 0)]


def _first(given: Mapping[str, Value], keys: list[str]) -> Value | None:
    return next((given[key] for key in keys if key in given), None)


def _shown(concept: Concept, names: tuple[Name, ...], wanted: str | None) -> Name | None:
    """The name to show, None when the concept has no strong one in Latin letters."""
    own = normalised(concept.id.rpartition(":")[2])
    asked = None if wanted is None else normalised(wanted)
    usable = [name for name in names if name.script == "latin" and not (name.weak or name.heard or name.verb)]
    return min(usable, key=lambda name: _order(name, asked, own), default=None)


def _order(name: Name, asked: str | None, own: str) -> tuple[bool, bool, bool]:
    form = normalised(name.form)
    return form != asked, form != own, name.mark != "published"
