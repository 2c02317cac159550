"""Awards: points and judo scores given, refused, foretold."""

from collections.abc import Iterator
from typing import NamedTuple

from hikite.claims.said.drafting import longest_first, phrased
from hikite.claims.said.matching import Hit
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import HARD, NONE, SOFT, Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason

# No rule set gives more at once.
_HIGHEST = 5
_CUE = 1.0
_ALONE = 1.2
_COUNTED = -3.0
_PRONOUN = -1.0
_DOUBT = 1.0
_AGAIN_WITHIN = 3


class _Award(NamedTuple):
    first: int
    stop: int
    number: Number
    weight: float
    cues: tuple[Hit, ...]


def find_scores(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Awards: ``points`` in sports that count them, ``score_class`` in judo; nothing given is ``denied``."""
    claims = [*_refused(reading, taken), *_by_hand(reading, taken)]
    busy = taken | {index for claim in claims for index in range(claim.first, claim.stop)}
    given = _points(reading, busy) if reading.points else _classed(reading, busy)
    claims.extend(_once(reading, list(given)))
    return tuple(sorted(claims, key=lambda claim: claim.first))


def _once(reading: Reading, claims: list[Claim]) -> Iterator[Claim]:
    """ "Four! Four to red" is one award said twice: the fuller saying stays."""
    kept: Claim | None = None
    for claim in claims:
        if kept is not None and _again(reading, kept, claim):
            kept = max(kept, claim, key=lambda one: (one.side is not None, len(one.reasons)))
            continue
        if kept is not None:
            yield kept
        kept = claim
    if kept is not None:
        yield kept


def _again(reading: Reading, earlier: Claim, later: Claim) -> bool:
    if (earlier.points, earlier.score_class) != (later.points, later.score_class):
        return False
    if later.first - earlier.stop > _AGAIN_WITHIN or {earlier.side, later.side} == set(reading.sides):
        return False
    if earlier.score_class:
        return True
    if all(_for_what(reading, claim) for claim in (earlier, later)):
        return False
    return HARD in reading.gaps[earlier.stop : later.first + 1] or _led_from(
        reading, later.first, earlier.stop
    )


def _for_what(reading: Reading, claim: Claim) -> bool:
    """ "one for the walk": an award told apart from others by its reason."""
    return any(
        not hit.fillers or hit.fillers[0].slot != "<side>"
        for hit in reading.starting("award_after", claim.stop)
    )


def _led_from(reading: Reading, first: int, cue_first: int) -> bool:
    """ "four, it's worth four": the second is the first with its reason."""
    return any(hit.first == cue_first for hit in reading.ending("award_before", first))


def _refused(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for hit in longest_first(reading.hits.get("nothing", ()), taken):
        if hit.entry.weight < 0 and not (reading.gaps[hit.first] and reading.gaps[hit.stop]):
            continue
        yield Claim(
            first=hit.first,
            stop=hit.stop,
            start_ms=reading.talk.tokens[hit.first].start_ms,
            end_ms=reading.talk.tokens[hit.stop - 1].end_ms,
            kind="score",
            concept="points" if reading.points else "none",
            status="denied",
            side=hit.side(reading.sides),
            points=0 if reading.points else None,
            reasons=(Reason(name="nothing given", words=reading.talk.words(hit.first, hit.stop)),),
        )


def _by_hand(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    return phrased(reading, "award_whole", "score", "given", taken)


def _classed(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for score in reading.classes.values():
        if (
            score.first in taken
            or reading.ending("class_not_before", score.first)
            or reading.starting("class_not_after", score.stop)
        ):
            continue
        after = _near(reading.starting("class_after", score.stop), reading.gaps[score.stop])
        cues = (
            *_near(reading.ending("class_before", score.first), reading.gaps[score.first]),
            *_whole(reading, after),
        )
        said = next((hit for hit in cues if hit.entry.status), None)
        named = next((hit for hit in cues if hit.first == score.stop and hit.fillers), None)
        side = named.side(reading.sides) if named else _owner(reading, score.first)
        status = said.entry.status if said else None
        yield Claim(
            first=score.first,
            stop=score.stop,
            start_ms=reading.talk.tokens[score.first].start_ms,
            end_ms=reading.talk.tokens[score.stop - 1].end_ms,
            kind="score",
            concept=score.name,
            status=status or status_at(reading, score.first, score.stop, "given"),
            side=side,
            score_class=score.name,
            reasons=tuple(_reason(reading, hit) for hit in cues),
        )


def _owner(reading: Reading, first: int) -> str | None:
    """ "Tilda waza-ari": a name right in front is who gets it."""
    actor = reading.actor_stops.get(first)
    return actor.side if actor is not None and actor.side in reading.sides else None


def _points(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for number in reading.numbers.values():
        if number.first in taken or not 1 <= number.value <= _HIGHEST:
            continue
        award = _weigh(reading, number)
        if award.weight <= 0:
            continue
        said = next((hit.entry.status for hit in award.cues if hit.entry.status), None)
        sides = [side for hit in award.cues if (side := hit.side(reading.sides))]
        yield Claim(
            first=award.first,
            stop=award.stop,
            start_ms=reading.talk.tokens[award.first].start_ms,
            end_ms=reading.talk.tokens[award.stop - 1].end_ms,
            kind="score",
            concept="points",
            status=said or status_at(reading, award.first, award.stop, "given"),
            side=sides[0] if sides else None,
            points=number.value,
            reasons=tuple(_reason(reading, hit) for hit in award.cues),
        )


def _weigh(reading: Reading, number: Number) -> _Award:
    """How surely a number is an award, from what stands before and after it."""
    first, stop = number.first, number.stop
    dressed = max(reading.ending("award_dress", first), key=_size, default=None)
    if dressed is not None and not any(reading.gaps[dressed.first + 1 : first + 1]):
        first = dressed.first
    tail = max(reading.starting("award_unit", stop), key=_size, default=None)
    if tail is not None and not any(reading.gaps[stop : tail.stop]):
        stop = tail.stop
    before = _near(reading.ending("award_before", first), reading.gaps[first])
    after = _whole(reading, _near(reading.starting("award_after", stop), reading.gaps[stop]))
    cues = [max(hits, key=_size) for hits in (before, after) if hits]
    cues += [hit for hit in (dressed, tail) if hit is not None]
    weight = sum(hit.entry.weight for hit in cues) - _DOUBT
    weight += _standing(reading, number, first, stop, bool(before), bool(after) or tail is not None)
    return _Award(first, stop, number, weight, tuple(cues))


def _near(hits: tuple[Hit, ...], gap: int) -> list[Hit]:
    """Cues speak across a comma, never across a statement's end; counted things stand right beside."""
    return [hit for hit in hits if gap == NONE or (gap == SOFT and hit.entry.weight > 0)]


def _bare_name(hit: Hit) -> bool:
    return bool(hit.fillers) and (hit.fillers[0].first, hit.fillers[0].stop) == (hit.first, hit.stop)


def _whole(reading: Reading, hits: list[Hit]) -> list[Hit]:
    """ "two, red" is red's; in "two, red turns in" the name opens the next clause."""
    return [
        hit
        for hit in hits
        if reading.gaps[hit.first] == NONE or reading.gaps[hit.stop] != NONE or not _bare_name(hit)
    ]


def _standing(reading: Reading, number: Number, first: int, stop: int, led: bool, followed: bool) -> float:
    """What the borders tell: alone between two stops it is an award, before a plain noun it counts that noun."""
    opens = reading.gaps[first] != NONE or led
    closes = reading.gaps[stop] != NONE or followed
    if opens and closes:
        return _ALONE
    weight = 0.0
    as_noun = reading.words[number.first - 1 : number.first] == ["a"] and number.value > 1
    if as_noun and not reading.talk.tokens[stop].glued:
        weight += _ALONE
    elif not closes and not (reading.words[stop] in reading.wording.closed or stop in reading.actors):
        weight += _COUNTED
    if not opens:
        weight += _PRONOUN
    if number.value == 1 and number.form != "noun" and not followed and not closes:
        weight += _PRONOUN
    return weight


def _size(hit: Hit) -> tuple[int, float]:
    return hit.stop - hit.first, abs(hit.entry.weight)


def _reason(reading: Reading, hit: Hit) -> Reason:
    return Reason(name=hit.group, words=reading.talk.words(hit.first, hit.stop), weight=hit.entry.weight)
