"""The ways a lexicon form may be written: endings, pieces spelt in two ways, a slot left open."""

from collections.abc import Iterator

from hikite.sounds import squash
from hikite.sounds.spellings import load_spelling

SLOT = "~"


def spellings(form: str, language: str) -> Iterator[tuple[str, bool]]:
    """Every squashed spelling of a form, and whether it is the form as it stands.

    ``uchi mata`` gives ``uchimata`` (True) and ``uchimatas`` (False) …
    """
    rules = load_spelling(language)
    plain = f"{form.casefold().replace('-', ' ')} "
    variants = {plain}
    for one, two in rules.swaps:
        for variant in tuple(variants):
            variants.update({variant.replace(one, two), variant.replace(two, one)})
    own = squash(plain)
    yield own, True
    given = {own}
    for variant in sorted(variants):
        stem = squash(variant)
        for spelling in (stem, *_ended(stem, rules.endings)):
            if spelling not in given:
                given.add(spelling)
                yield spelling, False


def _ended(stem: str, endings: tuple[tuple[str, str], ...]) -> Iterator[str]:
    """The stem with each ending that fits: an ending names what it takes off and what it puts on."""
    for off, on in endings:
        if stem.endswith(off) and len(stem) > len(off) + 1:
            yield stem[: len(stem) - len(off)] + on
