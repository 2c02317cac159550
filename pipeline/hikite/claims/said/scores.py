"""Awards: points and judo scores given, refused, foretold."""

from collections.abc import Iterator
from typing import NamedTuple

from hikite.claims.said.drafting import longest_first
from hikite.claims.said.matching import Hit
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import NONE, SOFT, Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason

# No rule set gives more at once.
_HIGHEST = 5
_CUE = 1.0
_ALONE = 1.2
_COUNTED = -3.0
_PRONOUN = -1.0


class _Award(NamedTuple):
    first: int
    stop: int
    number: Number
    weight: float
    cues: tuple[Hit, ...]


def find_scores(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Awards: ``points`` in sports that count them, ``score_class`` in judo; nothing given is ``denied``."""
    claims = list(_refused(reading, taken))
    busy = taken | {index for claim in claims for index in range(claim.first, claim.stop)}
    claims.extend(_points(reading, busy) if reading.points else _classed(reading, busy))
    return tuple(sorted(claims, key=lambda claim: claim.first))


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


def _classed(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for score in reading.classes.values():
        if score.first in taken or reading.ending("class_not", score.first):
            continue
        cues = (*reading.ending("class_before", score.first), *reading.starting("class_after", score.stop))
        said = next((hit for hit in cues if hit.entry.status), None)
        after = next((hit for hit in cues if hit.first == score.stop and hit.fillers), None)
        side = after.side(reading.sides) if after else _owner(reading, score.first)
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
    before = [hit for hit in reading.ending("award_before", first) if reading.gaps[first] <= SOFT]
    after = [hit for hit in reading.starting("award_after", stop) if reading.gaps[stop] <= SOFT]
    cues = [max(hits, key=_size) for hits in (before, after) if hits]
    cues += [hit for hit in (dressed, tail) if hit is not None]
    weight = sum(hit.entry.weight for hit in cues) - 1.0
    weight += _standing(reading, number, first, stop, bool(before), bool(after))
    return _Award(first, stop, number, weight, tuple(cues))


def _standing(reading: Reading, number: Number, first: int, stop: int, led: bool, followed: bool) -> float:
    """What the borders tell: alone between two stops it is an award, before a plain noun it counts that noun."""
    opens = reading.gaps[first] != NONE or led
    closes = reading.gaps[stop] != NONE or followed
    if opens and closes:
        return _ALONE
    weight = 0.0
    if not closes and not (reading.words[stop] in reading.wording.closed or stop in reading.actors):
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
