"""Awards: points and judo scores given, refused, foretold."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from hikite.claims.said.awards import TOLD_WITHIN, Award, for_what, instead, reason_of, weigh
from hikite.claims.said.classes import class_given, classed_as, general, what_is_taken_back
from hikite.claims.said.confidences import award_confidence
from hikite.claims.said.drafting import phrased
from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.matching import Filler
from hikite.claims.said.prices import priced
from hikite.claims.said.reading import Reading
from hikite.claims.said.rightings import replaced, righted
from hikite.claims.said.status import status_at
from hikite.records import Claim
from hikite.records.marks import TAKEN_BACK
from hikite.records.spans import tokens_of

T = TypeVar("T")
# No rule set gives more at once.
_HIGHEST = 5
# The same value so few words later is the same award said again.
_AGAIN_WITHIN = 6
# How a reference points at whichever of the two was not spoken of.
_OPPONENT = "opponent"
# The mark of a word that leads to a further award.
_NEXT = "next"
# The mark of a refusal whose first word tells where somebody landed.
_LANDED = "landed"


def find_scores(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Awards: ``points`` in sports that count them, ``score_class`` in judo; nothing given is ``denied``.

    Said again in one breath an award is one claim; taken up by the other speaker it is ``recalled``.
    """
    claims = list(phrased(reading, "award_whole", "score", "given", taken)) if reading.points else []
    claims.extend(_refused(reading, taken))
    claims.extend(() if reading.points else _signed(reading, taken))
    busy = taken | tokens_of(claims)
    awards = tuple(_points(reading, busy) if reading.points else _classed(reading, busy))
    claims = [claim for claim in claims if not _told_in_full(claim, awards)]
    claims.extend(awards)
    told = sorted(claims, key=lambda claim: claim.first)
    return tuple(told if reading.points else what_is_taken_back(told))


def _told_in_full(claim: Claim, awards: Iterable[Claim]) -> bool:
    """As in "they've given him something for it. A single.": whether how much it was is told right behind."""
    unsaid = claim.status == "given" and claim.points is None and claim.score_class is None
    return unsaid and any(0 <= award.first - claim.stop <= TOLD_WITHIN for award in awards)


def _refused(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    none = {"concept": "points" if reading.points else "none", "points": 0 if reading.points else None}
    scored = {score.stop for score in reading.classes.values()}
    for claim in phrased(reading, "nothing", "score", "denied", taken):
        if claim.of == _LANDED:
            alone = reading.talk.span(claim.first + 1, claim.stop)
            yield claim.model_copy(update={**none, **alone, "of": None})
            continue
        if claim.of == TAKEN_BACK and claim.first in scored:
            continue
        named = {score.name for at, score in reading.classes.items() if claim.first <= at < claim.stop}
        if len(named) == 1 and claim.of == TAKEN_BACK:
            yield classed_as(claim, named.pop())
        else:
            yield claim.model_copy(update=none)


def _signed(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "her arm goes out level with the shoulder": a score shown and not said by name."""
    for claim in phrased(reading, "class_sign", "score", "given", taken):
        near = range(claim.first - _AGAIN_WITHIN, claim.stop + _AGAIN_WITHIN + 1)
        if not any(at in reading.classes for at in near):
            yield claim.model_copy(update={"score_class": claim.concept})


def _points(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    given: list[tuple[Award, Claim]] = []
    stop = 0
    for number in reading.numbers.values():
        if number.first in taken or number.first < stop or not 1 <= number.value <= _HIGHEST:
            continue
        award = weigh(reading, number)
        if award.weight > 0:
            given.append((award, _given(reading, award)))
            stop = award.stop

    def again(earlier: tuple[Award, Claim], later: tuple[Award, Claim]) -> bool:
        if later[0].further or not _same(reading, earlier[1], later[1]):
            return False
        if any(reading.starting("award_anew", at) for at in range(earlier[0].stop, later[0].first)):
            return False
        if for_what(reading, earlier[0].stop) and for_what(reading, later[0].stop):
            return False
        between = reading.gaps[earlier[1].stop : later[1].first + 1]
        owned = later[1].side is not None and earlier[1].side is None
        in_one = owned and len(between) == 1 and not reading.talk.marks[later[1].first - 1]
        return in_one or HARD in between or _led_from(reading, earlier, later)

    yield from (claim for _, claim in _once(reading, priced(given), again))


def _given(reading: Reading, award: Award) -> Claim:
    said = next((hit.entry.status for hit in award.cues if hit.entry.status), None)
    sides = [side for hit in award.cues if (side := hit.side(reading.sides))]
    other = _to_the_other(reading, award)
    stop = max((hit.stop for hit in award.cues), default=award.stop)
    if sides and not other:
        other = righted(reading, "award_after", stop, sides[0])
    if sides and not said and other == sides[0] and replaced(reading, stop, sides[0]):
        said = "denied"
    return Claim(
        **reading.talk.span(award.first, award.stop),
        kind="score",
        concept="points",
        status=said or status_at(reading, award.first, award.stop, "given"),
        side=other or (sides[0] if sides else _called(reading, award.first)),
        points=award.number.value,
        attributes=instead(reading, award.first),
        confidence=award_confidence(award.weight),
        reasons=tuple(reason_of(reading, hit) for hit in award.cues),
    )


def _to_the_other(reading: Reading, award: Award) -> str | None:
    """As in "warning to red, with one for the other man": whoever was not named before in the statement."""
    given = (filler.first for hit in award.cues for filler in hit.fillers if filler.first >= award.stop)
    actors = reading.actors
    if not any(at in actors and actors[at].how == _OPPONENT for at in given):
        return None
    at = award.first - 1
    while at >= 0 and reading.gaps[at + 1] != HARD:
        if at in actors and actors[at].side in reading.sides:
            return reading.other(actors[at].side)
        at -= 1
    return None


def _called(reading: Reading, first: int) -> str | None:
    """As in "Blue, two." and "Red! Four!": whoever is called by name before the number, set apart from it."""
    actor = reading.actor_stops.get(first)
    if actor is None or reading.gaps[first] == NONE or reading.gaps[actor.first] != HARD:
        return None
    return actor.side if reading.named(actor.first) and actor.side in reading.sides else None


def _led_from(reading: Reading, earlier: tuple[Award, Claim], later: tuple[Award, Claim]) -> bool:
    """As in "four, it's worth four": the second is the first with its reason; "two, and two" are two."""
    cues = reading.ending("award_before", later[1].first)
    return any(hit.first == earlier[1].stop and hit.entry.concept != _NEXT for hit in cues)


def _classed(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    scores = (
        score
        for score in reading.classes.values()
        if score.first not in taken and not general(reading, score)
    )
    given = [(score, class_given(reading, score)) for score in scores]

    def again(earlier: tuple[Filler, Claim], later: tuple[Filler, Claim]) -> bool:
        return _same(reading, earlier[1], later[1])

    yield from (claim for _, claim in _once(reading, given, again))


def _once(
    reading: Reading,
    given: Iterable[tuple[T, Claim]],
    again: Callable[[tuple[T, Claim], tuple[T, Claim]], bool],
) -> Iterator[tuple[T, Claim]]:
    """As in "Four! Four to red" is one award said twice: the fuller saying stays."""
    kept: tuple[T, Claim] | None = None
    for one in given:
        if kept is not None and again(kept, one):
            if reading.speaker(kept[1].first) != reading.speaker(one[1].first):
                yield kept
                kept = one[0], one[1].model_copy(update={"status": "recalled"})
            else:
                kept = _fuller(kept, one)
            continue
        if kept is not None:
            yield kept
        kept = one
    if kept is not None:
        yield kept


def _fuller(kept: tuple[T, Claim], one: tuple[T, Claim]) -> tuple[T, Claim]:
    """The saying that tells more; that it takes the place of another holds of both."""
    marks = dict.fromkeys((*kept[1].attributes, *one[1].attributes))
    about, claim = max(kept, one, key=lambda saying: (saying[1].side is not None, len(saying[1].reasons)))
    return about, claim.model_copy(update={"attributes": tuple(marks)})


def _same(reading: Reading, earlier: Claim, later: Claim) -> bool:
    if (earlier.points, earlier.score_class) != (later.points, later.score_class):
        return False
    if later.first - earlier.stop > _AGAIN_WITHIN or {earlier.status, later.status} != {"given"}:
        return False
    return {earlier.side, later.side} != set(reading.sides)
