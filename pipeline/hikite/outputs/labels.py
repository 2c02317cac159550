"""Names for people: a concept's label, a competitor's name."""

from hikite.records import Competitor
from hikite.terms import Terms

_OWN_NAMES = ("judo", "sambo")
_LONG = 20
_NAMED = ("technique", "hold", "grip", "principle")


class Labels:
    """Labels of concepts in one language: their own trade's name, and this language's in brackets."""

    def __init__(self, terms: Terms, language: str) -> None:
        self._terms, self._language = terms, language
        self._known: dict[str, str] = {}

    def of(self, concept: str) -> str:
        """A readable label: ``uchi-mata (inner-thigh throw)``, ``double leg``; of an unknown id, itself."""
        if concept not in self._known:
            self._known[concept] = self._label(concept)
        return self._known[concept]

    def _label(self, concept: str) -> str:
        known = self._terms.concepts.get(concept)
        own = concept.split(":")[-1].removesuffix("-generic")
        plain = own.replace("-", " ")
        if concept.startswith("landing:"):
            return f"landing on the {plain}"
        if known is None or known.kind not in _NAMED:
            return plain
        named = self._named(concept)
        if known.kind == "grip":
            return own if known.generic else named or plain
        if known.tradition not in _OWN_NAMES or known.generic:
            return plain
        if known.tradition != "judo" and named and len(own) > _LONG:
            return named
        return f"{own} ({named})" if named and named.replace("-", " ") != plain else own

    def _named(self, concept: str) -> str | None:
        """The first name in this language that has a source, else the first that is a name at all."""
        names = [
            name
            for name in self._terms.names_of(concept)
            if name.language == self._language
            and not (name.verb or name.heard or name.weak or "~" in name.form)
        ]
        best = next((name for name in names if name.source), names[0] if names else None)
        return best.form if best else None


def shown_name(competitor: Competitor | None) -> str | None:
    """The competitor's name as it is shown."""
    return capitalised(competitor.name) if competitor else None


def capitalised(name: str | None) -> str | None:
    """The name of a person or place; one learnt from lower-case speech gets its capitals."""
    return name.title() if name and name.islower() else name or None
