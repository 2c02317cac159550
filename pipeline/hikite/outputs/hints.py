"""A short list of names for speech recognisers that take one, so that the next captions are garbled less."""

from hikite.mentions.evidence import load_weights
from hikite.terms import Name, Terms
from hikite.terms.words import normalised


def hints(terms: Terms, rules: str, count: int, language: str = "en") -> tuple[str, ...]:
    """The ``count`` names a bout under the rule set ``rules`` is likeliest to need, likeliest first.

    One name a concept before any concept's second: the trade's own first, then those with a source, the
    speaker's language before those it borrows from; in Latin letters alone.
    """
    languages = (language, *load_weights(language).guests)
    weighed = sorted(
        ((_weight(concept.weight, rules), concept.id) for concept in terms.concepts.values()),
        key=lambda one: (-one[0], one[1]),
    )
    ranked = [_names(terms, concept, languages) for weight, concept in weighed if weight > 0]
    turns = [names[turn].form for turn in range(2) for names in ranked if len(names) > turn]
    return tuple(list(dict.fromkeys(turns))[:count])


def _weight(weights: dict[str, int], rules: str) -> int:
    """The weight for the longest front part of the rule set's key that has one."""
    fronts = [key for key in weights if rules == key or rules.startswith(key + ".")]
    return weights[max(fronts, key=len)] if fronts else 0


def _names(terms: Terms, concept: str, languages: tuple[str, ...]) -> list[Name]:
    own = normalised(concept.split(":")[-1])
    names = [
        name
        for name in terms.names_of(concept)
        if name.language in languages
        and name.script == "latin"
        and not (name.verb or name.weak or name.heard or "~" in name.form)
    ]
    return sorted(
        names,
        key=lambda name: (normalised(name.form) != own, not name.source, languages.index(name.language)),
    )
