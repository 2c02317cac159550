"""Whose the numbers of a stated score are: "seven three", "red two, blue one", "a yuko against nothing"."""

from collections.abc import Sequence

from hikite.claims.said.matching import SIDES, Hit
from hikite.claims.said.plausible import APART, COUNTS, WRITTEN_AS_ONE
from hikite.claims.said.reading import Reading
from hikite.records import Tally

BLANK = "blank"
"""A score of nothing on either side, as the phrases call it."""
BARE_LEAD = "ahead"
"""A lead without a number, as the phrases call it."""
FAULTS = "shido"
"""What is counted of penalties in a sport of classes."""
# "A yuko to nothing": of the two, the first has the one named.
_OF_TWO = ("pair", "leader")
_NO_SCORE = Tally(waza_ari=0, yuko=0, ippon=0)


def shared(reading: Reading, hit: Hit) -> tuple[dict[str, Tally], bool, int | None]:
    """The tallies by side, whether the words tell whose is whose, and the lead where one is told."""
    how, sides = hit.entry.concept, reading.sides
    said = _parts(reading, hit)
    if how in ("lead", "level"):
        return {}, True, (hit.values[0] if hit.values else hit.entry.plus)
    if how == BARE_LEAD:
        return {}, True, None
    if how == BLANK:
        none = Tally(points=0) if reading.points else _NO_SCORE
        return dict.fromkeys(sides, _class_tally(hit.entry.of, 0) if hit.entry.of else none), True, None
    if how == "same":
        return dict.fromkeys(sides, said[0]), True, None
    if how == "sides":
        named = [filler.name for filler in hit.fillers if filler.slot in SIDES]
        named = ["", *named] if _of_the_second(hit) else named
        return _by_names(sides, named, said)
    if how in APART:
        return _apart(hit, sides, said)
    if how == "total":
        side = hit.side(sides)
        return {side or sides[0]: said[0]}, side is not None, None
    first, second = said[0], said[-1]
    side = hit.side(sides)
    if how in ("leader", "trailer") and side is not None and hit.entry.of is None and first != second:
        larger, smaller = sorted((first, second), key=_worth, reverse=True)
        other = sides[1 - sides.index(side)]
        mine, theirs = (larger, smaller) if how == "leader" else (smaller, larger)
        return {side: mine, other: theirs}, True, None
    return {sides[0]: first, sides[1]: second}, first == second, None


def _worth(tally: Tally) -> tuple[int, ...]:
    """By which of two tallies the higher is told: points, or judo's scores by class."""
    return tally.points or 0, tally.waza_ari or 0, tally.yuko or 0, tally.koka or 0


def _apart(hit: Hit, sides: tuple[str, str], said: Sequence[Tally]) -> tuple[dict[str, Tally], bool, None]:
    """Two numbers of which the first, the second or neither stands beside a known name."""
    side = hit.side(sides)
    if side is None:
        return dict(zip(sides, said, strict=True)), False, None
    other = sides[1 - sides.index(side)]
    names = (side, other) if hit.entry.concept == "first" else (other, side)
    return dict(zip(names, said, strict=True)), True, None


def _of_the_second(hit: Hit) -> bool:
    """As in "six to Ivan's two": whether the one named owns the second number, and nobody the first."""
    slots = [filler for filler in hit.fillers if filler.slot in (*SIDES, *COUNTS)]
    between = len(slots) == 3 and slots[1].slot in SIDES
    return between and slots[0].slot in COUNTS and slots[2].first == slots[1].stop + 1


def _by_names(
    sides: tuple[str, str], named: Sequence[str], said: Sequence[Tally]
) -> tuple[dict[str, Tally], bool, None]:
    """Numbers beside names; one known name tells the other."""
    known = [name if name in sides else None for name in named]
    if len(known) == 1 and len(said) > 1:
        known.append(None)
    if len(known) > 1 and known[0] is None and known[1] is not None:
        known[0] = sides[1 - sides.index(known[1])]
    if len(known) > 1 and known[0] is not None and (known[1] is None or known[1] == known[0]):
        known[1] = sides[1 - sides.index(known[0])]
    if known[0] is None:
        return dict(zip(sides, said, strict=False)), False, None
    return {side: tally for side, tally in zip(known, said, strict=False) if side}, True, None


def _parts(reading: Reading, hit: Hit) -> list[Tally]:
    """What each side is said to have, in speaking order: "a waza-ari against a yuko" is two parts."""
    entry_of = hit.entry.of
    parts: list[Tally] = []
    numbers: list[int] = []
    classes: list[str] = []
    for filler in hit.fillers:
        if filler.slot in COUNTS:
            numbers.append(filler.value)
        elif filler.slot == WRITTEN_AS_ONE:
            numbers += divmod(filler.value, 10)
        elif filler.slot == "<class>":
            classes.append(filler.name)
    if entry_of == FAULTS and classes:
        return [_with_fault(hit, classes[0])]
    if entry_of is not None:
        values = numbers or [hit.entry.plus]
        names = entry_of.split() if " " in entry_of else [entry_of] * len(values)
        return [_class_tally(name, value) for name, value in zip(names, values, strict=False)]
    if classes and numbers and hit.entry.concept in _OF_TWO and hit.fillers[0].slot == "<class>":
        return [_class_tally(classes[0], 1), _class_tally(classes[0], numbers[0])]
    if classes:
        if len(classes) == len(numbers) or not numbers:
            values = numbers or [1] * len(classes)
            parts = [_class_tally(name, value) for name, value in zip(classes, values, strict=True)]
        else:
            parts = [_class_tally(classes[0], value) for value in numbers]
        if len(parts) == 1 and hit.entry.concept == "pair":
            parts.append(_class_tally(classes[0], 0))
        return parts
    counted = numbers or ([hit.entry.plus] if hit.entry.plus else [])
    return [Tally(points=value) if reading.points else Tally(waza_ari=value) for value in counted]


def _with_fault(hit: Hit, name: str) -> Tally:
    """As in "one yuko and one card each": a judo score and the penalties, each with the number before it."""
    score = next(filler.first for filler in hit.fillers if filler.slot == "<class>")
    numbers = {filler.stop == score: filler.value for filler in hit.fillers if filler.slot in COUNTS}
    return Tally(shido=numbers.get(False, 1)).model_copy(update={_field(name): numbers.get(True, 1)})


def _field(name: str) -> str:
    return name.replace("-", "_")


def _class_tally(name: str, value: int) -> Tally:
    return Tally.model_validate({_field(name): value})
