"""What may fill the slots of phrases: numbers, competitors, judo scores, ordinals."""

from collections.abc import Iterable, Mapping, Sequence

from hikite.claims.references import Reference
from hikite.claims.said.matching import SIDES, Filler
from hikite.claims.said.numbers import Number
from hikite.claims.said.wording import Wording
from hikite.records import Mention
from hikite.records.spans import tokens_of

# From here on two figures may be two numbers.
_TWO_FIGURES = 10
# What a number of each form may fill; of any other, whatever a number may.
_SLOTS = {"noun": ("<noun>",), "zero": ("<z>",)}
_NOBODY = frozenset(("possessive", "both"))
PRONOUNS = frozenset(("subject", "object", "pronoun"))
# All that a pronoun fills.
_ANYBODY = ("<side>",)


def classes_of(words: Sequence[str], mentions: tuple[Mention, ...], wording: Wording) -> dict[int, Filler]:
    """Judo scores named, by first token: the language's own spellings, and mentions however they were met."""
    found: dict[int, Filler] = {}
    for mention in mentions:
        if mention.kind == "score" and mention.concept in wording.classes:
            found[mention.first] = Filler("<class>", mention.first, mention.stop, name=mention.concept)
    inside = tokens_of(mention for mention in mentions if mention.kind != "score")
    forms = {tuple(form.split()): name for name, spellings in wording.classes.items() for form in spellings}
    starts = {form[0] for form in forms}
    for index, word in enumerate(words):
        if word not in starts or index in found or index in inside:
            continue
        for size in (3, 2, 1):
            name = forms.get(tuple(words[index : index + size]))
            if name is not None and index + size <= len(words):
                found[index] = Filler("<class>", index, index + size, name=name)
                break
    return dict(sorted(found.items()))


def fillers_of(
    words: Sequence[str],
    numbers: Iterable[Number],
    actors: Iterable[Reference],
    classes: Mapping[int, Filler],
    wording: Wording,
) -> list[tuple[Filler, ...]]:
    """What may fill a slot from each token on; nothing behind the last."""
    fillers: list[tuple[Filler, ...]] = [()] * (len(words) + 1)
    for number in numbers:
        fillers[number.first] += _of_number(number)
    for actor in actors:
        fillers[actor.first] += _of_actor(actor, numbered=bool(fillers[actor.stop - 1]))
    for first, score in classes.items():
        fillers[first] += (score,)
    ordinals = wording.numbers.ordinals
    for index, word in enumerate(words):
        if word in ordinals:
            fillers[index] += (Filler("<nth>", index, index + 1, ordinals[word]),)
    return fillers


def _of_number(number: Number) -> tuple[Filler, ...]:
    """A number by its form; "340" is also a clock, "84" perhaps eight to four, written as one."""
    first, stop, value, form = number
    found = tuple([Filler(slot, first, stop, value) for slot in _SLOTS.get(form, ("<z>", "<n>"))])
    if form == "digits" and 100 <= value < 1000 and value % 100 < 60:
        found += (Filler("<mss>", first, stop, value // 100 * 60 + value % 100),)
    if form == "digits" and _TWO_FIGURES <= value < 100:
        found += (Filler("<zz>", first, stop, value),)
    return found


def _of_actor(actor: Reference, numbered: bool) -> tuple[Filler, ...]:
    """Whoever is pointed at; ``numbered`` where the last word of it may be a number.

    "White two, blue one" counts; "the blue one" is a person.
    """
    if actor.how in _NOBODY:
        return ()
    first, stop, side, how = actor
    slots = _ANYBODY if how in PRONOUNS else SIDES
    found = tuple([Filler(slot, first, stop, name=side) for slot in slots])
    if numbered and stop - first > 1:
        found += tuple([Filler(slot, first, stop - 1, name=side) for slot in SIDES])
    return found
