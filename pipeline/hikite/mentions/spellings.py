"""The ways a lexicon form may be written: endings, pieces spelt in two ways, a slot left open."""

from collections.abc import Iterator
from functools import cache

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
    endings = _by_tail(rules.endings)
    for variant in sorted(variants) if len(variants) > 1 else variants:
        stem = squash(variant)
        for spelling in (stem, *_ended(stem, endings)):
            if spelling not in given:
                given.add(spelling)
                yield spelling, False


def _ended(stem: str, endings: dict[str, tuple[str, ...]]) -> Iterator[str]:
    """The stem with each ending that fits: an ending names what it takes off and what it puts on."""
    for off, several in endings.items():
        if stem.endswith(off) and len(stem) > len(off) + 1:
            kept = stem[: len(stem) - len(off)]
            for on in several:
                yield kept + on


@cache
def _by_tail(endings: tuple[tuple[str, str], ...]) -> dict[str, tuple[str, ...]]:
    """What is put on, by what comes off."""
    tails: dict[str, tuple[str, ...]] = {}
    for off, on in endings:
        tails[off] = (*tails.get(off, ()), on)
    return tails
