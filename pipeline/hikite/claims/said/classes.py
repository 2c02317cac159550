"""Judo scores one by one: whose they are, how they are meant, what they take the place of."""

from collections.abc import Iterable, Iterator

from hikite.claims.said.awards import apart, asked, instead, near, reason_of, whole, withdrawn
from hikite.claims.said.drafting import stands
from hikite.claims.said.gaps import HARD
from hikite.claims.said.listings import classes_listed
from hikite.claims.said.matching import Filler, Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.rightings import righted
from hikite.claims.said.status import status_at
from hikite.records import Claim
from hikite.records.marks import TAKEN_BACK, counted_as

# So many words after a judo score it is counted at most.
_COUNTED_WITHIN = 4
# An award taken back is called again so few words later.
_ANEW_WITHIN = 3
# So many words after it what was given is taken back at most.
_BACK_WITHIN = 120
# What ends a bout stands on no board; with it so many are all that are given.
_WHOLE, _ALL = "ippon", 3


def general(reading: Reading, score: Filler) -> bool:
    """Judo scores talked about in general are nobody's."""
    before = reading.ending("class_not_before", score.first)
    return bool(before or reading.starting("class_not_after", score.stop) or _all_listed(reading, score))


def _all_listed(reading: Reading, score: Filler) -> bool:
    """As in "yuko, waza-ari and ippon": the scores there are, none of them called."""
    before, behind = classes_listed(reading, score.first, -1), classes_listed(reading, score.stop, +1)
    names = {one.name for one in (*before, score, *behind)}
    return _WHOLE in names and len(names) >= _ALL


def class_given(reading: Reading, score: Filler) -> Claim:
    """The claim of one judo score, with whose it is and how it is meant where the words beside it tell."""
    following = tuple(hit for hit in reading.starting("class_after", score.stop) if stands(reading, hit))
    after = near(following, reading.gaps[score.stop]) or apart(reading, following)
    before = near(reading.ending("class_before", score.first), reading.gaps[score.first])
    before.sort(key=lambda hit: hit.first)
    behind = (*withdrawn(reading, score.stop), *asked(reading, score.stop), *_called_anew(reading, after))
    cues = (*behind, *before, *whole(reading, after))
    means = next((hit.entry for hit in cues if hit.entry.status), None)
    status = means.status if means else None
    named = next((hit for hit in cues if hit.first == score.stop and hit.fillers), None)
    side = named.side(reading.sides) if named else _owner(reading, score.first)
    if side is not None:
        side = righted(reading, "class_after", named.stop if named else score.stop, side)
    return Claim(
        **reading.talk.span(score.first, score.stop),
        kind="score",
        concept=score.name,
        status=status or status_at(reading, score.first, score.stop, "given"),
        side=side,
        of=means.of if means else None,
        score_class=score.name,
        attributes=(*_ordinal(reading, score), *instead(reading, score.first)),
        reasons=tuple(reason_of(reading, hit) for hit in cues),
    )


def _called_anew(reading: Reading, after: Iterable[Hit]) -> Iterator[Hit]:
    """As in "waza-ari, blue. I beg your pardon. Waza-ari, white.": words that take it back behind whose it
    was, where one is called again right behind them."""
    for named in after:
        for hit in withdrawn(reading, named.stop):
            if any(0 <= at - hit.stop <= _ANEW_WITHIN for at in reading.classes):
                yield hit


def _ordinal(reading: Reading, score: Filler) -> tuple[str, ...]:
    """As in "a second yuko" or "yuko! That's two for him": which one of its side and kind it is."""
    before = reading.words[score.first - 1] if score.first else ""
    number = reading.phrases.wording.numbers.ordinals.get(before)
    if number is None:
        following = min(
            (first for first in reading.classes if first > score.first), default=len(reading.words)
        )
        counts = (
            hit.entry.plus
            for at in range(score.stop, min(score.stop + _COUNTED_WITHIN, following))
            for hit in reading.starting("class_count", at)
            if hit.stop <= following
        )
        number = next(counts, None)
    return () if number is None else (counted_as(number),)


def _owner(reading: Reading, first: int) -> str | None:
    """As in "Tilda waza-ari": a name right in front is who gets it, unless a statement ends between them; of
    "over goes Tilda, waza-ari" it is the other one."""
    actor = None if reading.gaps[first] == HARD else reading.actor_stops.get(first)
    if actor is None or actor.side not in reading.sides:
        return None
    lands = (hit for hit in reading.ending("landing_before", first) if hit.first < actor.first)
    thrown = any(hit.side(reading.sides) == actor.side for hit in lands)
    return reading.other(actor.side) if thrown else actor.side


def what_is_taken_back(claims: Iterable[Claim]) -> Iterator[Claim]:
    """The claims, those that take back a score nobody names with the one given last: "Waza-ari! … Wiped!"."""
    last: Claim | None = None
    for claim in claims:
        if claim.status == "given":
            last = claim
        elif claim.of == TAKEN_BACK and claim.score_class is None:
            if last is not None and claim.first - last.stop <= _BACK_WITHIN:
                claim = classed_as(claim, last.concept)
            last = None
        yield claim


def classed_as(claim: Claim, name: str) -> Claim:
    """The claim, told of the judo score of that name."""
    return claim.model_copy(update={"concept": name, "score_class": name})
