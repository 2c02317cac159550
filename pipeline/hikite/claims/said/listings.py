"""Judo scores listed for both sides around one word: "a yuko against a waza-ari and a yuko"."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.matching import Filler
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Tally
from hikite.records.spans import tokens_of

_PENALTY = "shido"
# So few words lie at most between what the one has and the other.
_ACCOUNT_WITHIN = 4


class _Account(NamedTuple):
    """Tokens ``first`` to ``stop`` tell what one side has."""

    first: int
    stop: int
    side: str
    scores: list[Filler]


def find_listings(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "a yuko against a waza-ari and a yuko": what each side has, listed on both sides of one word."""
    done = 0
    for hit in reading.hits.get("versus", ()):
        left = classes_listed(reading, hit.first, -1)
        right = _of_one_side(reading, classes_listed(reading, hit.stop, +1))
        if not left or not right:
            continue
        first, stop = left[0].first, right[-1].stop
        if first < done or not taken.isdisjoint(range(first, stop)):
            continue
        done = stop
        owner = _owner(reading, first)
        sides = reading.sides[::-1] if owner == reading.sides[1] else reading.sides
        tallies = dict(zip(sides, _tallies(reading, left, right), strict=True))
        yield _listed(reading, first, stop, tallies, owner is not None)


def find_accounts(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "Ana with a waza-ari and a yuko, Bea just the yuko": each with what it has."""
    first = (*_told_behind(reading, taken), *_told_twice(reading, taken))
    yield from first
    yield from _told_ahead(reading, taken | tokens_of(first))


def _told_ahead(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """Where somebody stands in front of what he has."""
    last: _Account | None = None
    for account in _accounts(reading):
        pair = last is not None and last.side != account.side and _follows(reading, last, account)
        if last is not None and pair and taken.isdisjoint(range(last.first, account.stop)):
            yield _of_two(reading, last, account)
            last = None
        else:
            yield from _of_one(reading, last, taken)
            last = account
    yield from _of_one(reading, last, taken)


def _told_behind(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "a waza-ari and a yuko for Ana, one yuko for Bea"; one thing for each may be called in turn."""
    done = 0
    for one, two in pairwise(_accounts_behind(reading)):
        several = max(len(one.scores), len(two.scores)) > 1 and one.side != two.side
        near = one.first >= done and 0 <= two.first - one.stop <= _ACCOUNT_WITHIN
        if several and near and taken.isdisjoint(range(one.first, two.stop)):
            done = two.stop
            yield _of_two(reading, one, two)


def _told_twice(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "so it's level, a waza-ari and a yuko, a waza-ari and a yuko"."""
    for at in reading.classes:
        scores = classes_listed(reading, at, +1)
        half = [score.name for score in scores[: len(scores) // 2]]
        twice = [score.name for score in scores] == 2 * half and len(set(half)) > 1
        if twice and taken.isdisjoint(range(at, scores[-1].stop)):
            tallies = _tallies(reading, scores[: len(half)], scores[len(half) :])
            yield _listed(reading, at, scores[-1].stop, dict(zip(reading.sides, tallies, strict=True)))


def _of_two(reading: Reading, one: _Account, two: _Account) -> Claim:
    tallies = dict(zip((one.side, two.side), _tallies(reading, one.scores, two.scores), strict=True))
    return _listed(reading, one.first, two.stop, tallies)


def _accounts(reading: Reading) -> Iterator[_Account]:
    """Whoever is told of with what he has; a pronoun's only where scores and penalties are told together."""
    for actor in reading.actors.values():
        at = _had(reading, actor.stop)
        scores = classes_listed(reading, at, +1)
        nothing = _nothing(reading, at) if at > actor.stop and not scores else None
        named = actor.side in reading.sides and reading.named(actor.first)
        if (named and (scores or nothing)) or (actor.how == "subject" and _mixed(scores)):
            side = actor.side if actor.side in reading.sides else ""
            yield _Account(actor.first, nothing or scores[-1].stop, side, scores)


def _accounts_behind(reading: Reading) -> Iterator[_Account]:
    """Whoever is told of behind what he has."""
    whose = {hit.stop: hit.first for hit in reading.hits.get("list_whose", ())}
    for actor in reading.actors.values():
        at = whose.get(actor.first)
        scores = classes_listed(reading, at, -1) if at is not None and actor.side in reading.sides else []
        if scores and reading.named(actor.first) and HARD not in reading.gaps[at : actor.first + 1]:
            yield _Account(scores[0].first, actor.stop, actor.side, scores)


def _of_one(reading: Reading, one: _Account | None, taken: frozenset[int]) -> Iterator[Claim]:
    """As in "he's a yuko and two shidos": scores and penalties told together are had, none is given."""
    if one is not None and _mixed(one.scores) and taken.isdisjoint(range(one.first, one.stop)):
        tallies = {one.side or reading.sides[0]: Tally.model_validate(_counts(reading, one.scores))}
        yield _listed(reading, one.first, one.stop, tallies, bool(one.side))


def _mixed(scores: Sequence[Filler]) -> bool:
    return 0 < sum(score.name == _PENALTY for score in scores) < len(scores)


def _follows(reading: Reading, one: _Account, two: _Account) -> bool:
    """Whether an account goes on with the other's: in the same statement, or as the next one where either has
    several things ("Ana a waza-ari, one shido. Bea one shido."), which no two scores called in turn have, or
    each is told with how many ("White, one shido. Blue, two shidos.")."""
    if not (one.side and two.side and (one.scores or two.scores)):
        return False
    first, scores = two.first, two.scores
    behind = scores[-1].stop if scores else first + 1
    if HARD not in reading.gaps[one.first + 1 : behind]:
        return 0 <= first - one.stop <= _ACCOUNT_WITHIN
    counted = all(score.first in reading.number_stops for score in (*one.scores, *scores))
    ends = [at for at in range(one.first + 1, behind) if reading.gaps[at] == HARD]
    if counted and ends == [one.stop] and first - one.stop <= _ACCOUNT_WITHIN:
        return True
    return one.stop == first and max(len(one.scores), len(scores)) > 1


def _had(reading: Reading, at: int) -> int:
    """Past the words that say that somebody has what follows: "with", "has just"."""
    having = {hit.first: hit.stop for hit in reading.hits.get("list_has", ())}
    while at in having and reading.gaps[at] == NONE:
        at = having[at]
    return at


def _nothing(reading: Reading, at: int) -> int | None:
    """Where the words end that say that somebody has nothing, if they stand there."""
    stops = [hit.stop for hit in reading.hits.get("list_none", ()) if hit.first == at]
    return max(stops, default=None) if reading.gaps[at] == NONE else None


def _listed(
    reading: Reading, first: int, stop: int, tallies: dict[str, Tally], ordered: bool = True
) -> Claim:
    return Claim(
        **reading.talk.span(first, stop),
        kind="stated_score",
        concept="score",
        status=status_at(reading, first, stop, "stated"),
        tallies=tallies,
        ordered=ordered,
        reasons=(Reason(name="listed", words=reading.talk.words(first, stop)),),
    )


def _owner(reading: Reading, first: int) -> str | None:
    """As in "Ana's waza-ari over two yuko", "blue first: a yuko …": whose the scores listed first are."""
    at, small = first, {reading.words[hit.first] for hit in reading.hits.get("list_join", ())}
    while at and reading.gaps[at] != HARD and reading.words[at - 1] in small:
        at -= 1
    return reading.whose(reading.ending("list_owner", at)) if reading.gaps[at] != HARD else None


def classes_listed(reading: Reading, at: int, step: int) -> list[Filler]:
    """The judo scores listed right before (``step`` -1) or behind a token (+1), small words between them."""
    found: list[Filler] = []
    starts = dict(reading.classes)
    stops = {score.stop: score for score in starts.values()}
    joins = {hit.first for hit in reading.hits.get("list_join", ())}
    for hit in reading.hits.get("list_penalty", ()):
        stops[hit.stop] = starts[hit.first] = Filler("<class>", hit.first, hit.stop, name=_PENALTY)
    while 0 <= at <= len(reading.words) and reading.gaps[at] != HARD:
        score = starts.get(at) if step > 0 else stops.get(at)
        small = at if step > 0 else at - 1
        if score is not None:
            found.append(score)
            at = score.stop if step > 0 else score.first
        elif small in joins or small in reading.numbers:
            at += step
        else:
            break
    return found if step > 0 else found[::-1]


def _of_one_side(reading: Reading, scores: list[Filler]) -> list[Filler]:
    """What is listed without the penalties that are told of both right behind: "a yuko to nothing, one shido
    each", "a yuko, shidos two to one"."""
    level = reading.phrases.wording.numbers.level
    while scores and scores[-1].name == _PENALTY:
        behind = scores[-1].stop
        levelled = behind < len(reading.words) and reading.words[behind] in level
        if not (levelled or behind in reading.numbers):
            break
        scores = scores[:-1]
    return scores


def _tallies(reading: Reading, *listed: Sequence[Filler]) -> list[Tally]:
    """What each side has; where any score is told, the others are none, but penalties alone tell of none.
    Who has nothing has no penalty either, where one is told."""
    scored = any(score.name != _PENALTY for scores in listed for score in scores)
    empty = not all(listed)
    punished = any(score.name == _PENALTY for scores in listed for score in scores)
    none = dict.fromkeys(("waza_ari", "yuko"), 0) if scored else {}
    none |= {_PENALTY: 0} if empty and punished else {}
    return [Tally.model_validate(none | _counts(reading, scores)) for scores in listed]


def _counts(reading: Reading, scores: Sequence[Filler]) -> Counter[str]:
    """What one side has: each score once, or as often as the number in front of it says."""
    counts: Counter[str] = Counter()
    for score in scores:
        before = next((one for one in reading.numbers.values() if one.stop == score.first), None)
        counts[score.name.replace("-", "_")] += before.value if before is not None and before.value else 1
    return counts
