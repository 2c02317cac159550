"""Stated scores and leads: "seven three", "four all", "up by five", "one waza-ari each"."""

from collections import Counter
from collections.abc import Iterator, Sequence

from hikite.claims.said.drafting import longest_first
from hikite.claims.said.matching import SIDES, Filler, Hit
from hikite.claims.said.reading import HARD, NONE, Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Tally

_HIGHEST = 40
_HIGHEST_CLASS = 4
_LEAST_TOTAL = 6
_CUE_WITHIN = 4
_NUMBERS = ("<n>", "<z>", "<noun>")


def find_tallies(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a stated score. ``tallies`` are by side where the words tell; else ``ordered`` is false and
    the first number said stands under the first side. A lead gives ``margin`` with ``side`` its leader;
    a level score without numbers has ``margin`` 0."""
    hits = [hit for hit in reading.hits.get("tally", ()) if _fits(reading, hit)]
    claims = list(_class_lists(reading, taken))
    busy = taken | {index for claim in claims for index in range(claim.first, claim.stop)}
    for hit in longest_first(hits, busy):
        tallies, ordered, margin = _score(reading, hit)
        claims.append(_claim(reading, hit, tallies, ordered, margin))
    return tuple(claims)


def find_totals(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """ "Twelve!": a number alone that no one award can be is what one side now has, under the first side
    and not ``ordered``."""
    return tuple(_totals(reading, taken)) if reading.points else ()


def _totals(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for number in reading.numbers.values():
        alone = reading.gaps[number.first] == HARD and reading.gaps[number.stop] != NONE
        cued = bool(reading.ending("total_before", number.first)) and reading.gaps[number.stop] != NONE
        if number.first in taken or not _LEAST_TOTAL <= number.value <= _HIGHEST or not (alone or cued):
            continue
        yield Claim(
            first=number.first,
            stop=number.stop,
            start_ms=reading.talk.tokens[number.first].start_ms,
            end_ms=reading.talk.tokens[number.stop - 1].end_ms,
            kind="stated_score",
            concept="score",
            status=status_at(reading, number.first, number.stop, "stated"),
            tallies={reading.sides[0]: Tally(points=number.value)},
            ordered=False,
            reasons=(Reason(name="total", words=reading.words[number.first]),),
        )


def _class_lists(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """ "a yuko against a waza-ari and a yuko": what each side has, listed on both sides of one word."""
    for hit in reading.hits.get("versus", ()):
        left = _class_list(reading, hit.first, -1)
        right = _class_list(reading, hit.stop, +1)
        if not left or not right:
            continue
        first, stop = left[0].first, right[-1].stop
        if not taken.isdisjoint(range(first, stop)):
            continue
        yield Claim(
            first=first,
            stop=stop,
            start_ms=reading.talk.tokens[first].start_ms,
            end_ms=reading.talk.tokens[stop - 1].end_ms,
            kind="stated_score",
            concept="score",
            status=status_at(reading, first, stop, "stated"),
            tallies=dict(zip(reading.sides, (_summed(left), _summed(right)), strict=True)),
            ordered=False,
            reasons=(Reason(name="listed", words=reading.talk.words(first, stop)),),
        )


def _class_list(reading: Reading, at: int, step: int) -> list[Filler]:
    """The judo scores listed right before (``step`` -1) or after a token, small words between them."""
    found: list[Filler] = []
    stops = {score.stop: score for score in reading.classes.values()}
    joins = {hit.first for hit in reading.hits.get("list_join", ())}
    while 0 <= at <= len(reading.words) and reading.gaps[at] != HARD:
        score = reading.classes.get(at) if step > 0 else stops.get(at)
        small = at if step > 0 else at - 1
        if score is not None:
            found.append(score)
            at = score.stop if step > 0 else score.first
        elif small in joins or small in reading.numbers:
            at += step
        else:
            break
    return found if step > 0 else found[::-1]


def _summed(scores: Sequence[Filler]) -> Tally:
    counts = Counter(score.name.replace("-", "_") for score in scores)
    return Tally.model_validate({name: counts.get(name, 0) for name in ("waza_ari", "yuko")} | dict(counts))


def _claim(reading: Reading, hit: Hit, tallies: dict[str, Tally], ordered: bool, margin: int | None) -> Claim:
    first, stop = _span(hit)
    named = next((filler.name for filler in hit.fillers if filler.slot in SIDES), None)
    side = hit.side(reading.sides) if margin is not None and named else None
    return Claim(
        first=first,
        stop=stop,
        start_ms=reading.talk.tokens[first].start_ms,
        end_ms=reading.talk.tokens[stop - 1].end_ms,
        kind="stated_score",
        concept="score",
        status=hit.entry.status or status_at(reading, hit.first, hit.stop, "stated"),
        side=side,
        tallies=tallies,
        ordered=ordered,
        margin=margin,
        reasons=(Reason(name=hit.entry.concept, words=reading.talk.words(hit.first, hit.stop)),),
    )


def _span(hit: Hit) -> tuple[int, int]:
    """The words of the score itself: "Ivan wins by seven to two" also says who won."""
    numbers = [filler for filler in hit.fillers if filler.slot in _NUMBERS]
    if hit.entry.concept in ("leader", "trailer") and numbers:
        return numbers[0].first, numbers[-1].stop
    return hit.first, hit.stop


def _fits(reading: Reading, hit: Hit) -> bool:
    """Whether the numbers can be a score here: neighbours, in reach, of a thing this sport counts."""
    numbers = [filler for filler in hit.fillers if filler.slot in _NUMBERS]
    classes = any(filler.slot == "<class>" for filler in hit.fillers)
    how = hit.entry.concept
    if any(number.value > (_HIGHEST if reading.points else _HIGHEST_CLASS) for number in numbers):
        return False
    if how in ("pair", "leader", "trailer") and not classes:
        bare_judo = not reading.points and all(number.value for number in numbers)
        return not bare_judo and _neighbours(reading, hit, numbers) and _named_whole(reading, hit)
    if how == "same" and (len({number.value for number in numbers}) > 1 or _never(reading, hit)):
        return False
    if how == "level" and hit.entry.weight < 0:
        return reading.gaps[hit.first] != NONE and reading.gaps[hit.stop] != NONE
    if how == "lead" and (not reading.points or _never(reading, hit)):
        return False
    if how == "sides" and _one_side(hit):
        return False
    if how == "total" and classes and hit.values == (1,) and hit.fillers[0].slot not in SIDES:
        return hit.fillers[-1].slot in SIDES
    return not _broken(reading, hit)


def _broken(reading: Reading, hit: Hit) -> bool:
    """A comma may stand only beside a name: "both down, four" is no "down four"."""
    borders = {
        border for filler in hit.fillers if filler.slot in SIDES for border in (filler.first, filler.stop)
    }
    return any(reading.gaps[at] != NONE and at not in borders for at in range(hit.first + 1, hit.stop))


def _one_side(hit: Hit) -> bool:
    """ "Ana yuko, Ana waza-ari" tells two awards over again."""
    names = [filler.name for filler in hit.fillers if filler.slot in SIDES]
    return names[0] != "" and len(set(names)) == 1


def _never(reading: Reading, hit: Hit) -> bool:
    """ "a four each" lists awards, "four all day" praises one."""
    after = reading.gaps[hit.stop] == NONE and reading.starting("tally_never_after", hit.stop)
    if hit.entry.concept == "lead":
        return bool(after)
    before = reading.gaps[hit.first] == NONE and reading.ending("tally_never_before", hit.first)
    return bool(after or before)


def _named_whole(reading: Reading, hit: Hit) -> bool:
    """A name after the numbers owns them only if the statement ends there: "two-one, Ivan turns in" does not."""
    last = hit.fillers[-1]
    return last.slot not in SIDES or last.stop != hit.stop or reading.gaps[hit.stop] != NONE


def _neighbours(reading: Reading, hit: Hit, numbers: Sequence[Filler]) -> bool:
    """ "three, two" needs a word for a score in front; "three two" and "three to two" do not."""
    first, second = numbers[0], numbers[-1]
    if not any(reading.gaps[first.stop : second.first + 1]):
        return True
    low = max(0, hit.first - _CUE_WITHIN)
    return any(reading.ending("tally_before", stop) for stop in range(low, hit.first + 1))


def _score(reading: Reading, hit: Hit) -> tuple[dict[str, Tally], bool, int | None]:
    how, sides = hit.entry.concept, reading.sides
    said = _parts(reading, hit)
    if how in ("lead", "level"):
        return {}, True, (hit.values[0] if hit.values else hit.entry.plus)
    if how == "same":
        return dict.fromkeys(sides, said[0]), True, None
    if how == "sides":
        named = [filler.name for filler in hit.fillers if filler.slot in SIDES]
        return _by_names(sides, named, said)
    if how == "total":
        side = hit.side(sides)
        return {side or sides[0]: said[0]}, side is not None, None
    first, second = said[0], said[-1]
    side = hit.side(sides)
    if how in ("leader", "trailer") and side is not None and reading.points and first != second:
        larger, smaller = sorted((first, second), key=lambda tally: -(tally.points or 0))
        other = sides[1 - sides.index(side)]
        mine, theirs = (larger, smaller) if how == "leader" else (smaller, larger)
        return {side: mine, other: theirs}, True, None
    return {sides[0]: first, sides[1]: second}, first == second, None


def _by_names(
    sides: tuple[str, str], named: Sequence[str], said: Sequence[Tally]
) -> tuple[dict[str, Tally], bool, None]:
    """Numbers beside names; one known name tells the other."""
    known = [name if name in sides else None for name in named]
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
        if filler.slot in _NUMBERS:
            numbers.append(filler.value)
        elif filler.slot == "<class>":
            classes.append(filler.name)
    if entry_of == "shido":
        return [Tally(shido=value) for value in (numbers or [hit.entry.plus])]
    if classes and numbers and hit.entry.concept == "pair" and hit.fillers[0].slot == "<class>":
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
    if not reading.points:
        return [Tally(waza_ari=value) for value in numbers]
    return [Tally(points=value) for value in numbers]


def _class_tally(name: str, value: int) -> Tally:
    return Tally.model_validate({name.replace("-", "_"): value})
