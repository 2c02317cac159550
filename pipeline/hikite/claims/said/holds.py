"""Holds: called, counted aloud, broken or held to the end, with the seconds said."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hikite.claims.said.drafting import draft, whole_hits
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import NONE, Reading
from hikite.records import Claim, Reason, Status

_ANY_HOLD = {True: "hold-down", False: "osaekomi"}
# A count this long after the hold was last spoken of is a count of something else.
_OPEN_MS = 25_000
_LONGEST_HOLD = 25
_FULL_HOLD = 20
# A word for any hold names none; calls about holds come from the phrases, which say if one begins or ends.
_GENERAL = frozenset(("osaekomi", "hold-down", "toketa", "osaekomi-toketa"))
# "Four!" over a hold is rather an award where points are given; a count that begins alone begins later.
_ALONE_FROM = {True: 5, False: 2}
# "Toketa! Seven-ish." says the length after the break.
_AFTER_BREAK_WORDS = 8
_AGAIN_WORDS = 4


def find_holds(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Holds ``running``, ``broken`` or ``completed``; ``seconds`` where a count or a length was said."""
    named = list(_named(reading, taken))
    busy = taken | {index for claim in named for index in range(claim.first, claim.stop)}
    spoken = [
        draft(reading, hit, "hold", "running", seconds=hit.values[0] if hit.values else None)
        for hit in whole_hits(reading, "hold", busy)
    ]
    busy |= {index for hit in reading.hits.get("hold", ()) for index in range(hit.first, hit.stop)}
    counted = [_count(reading, run) for run in _runs(reading, busy)]
    return tuple(_followed(reading, sorted((*named, *spoken, *counted), key=lambda claim: claim.first)))


def _named(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for mention in reading.mentions:
        span = range(mention.first, mention.stop)
        if (
            mention.kind != "hold"
            or mention.generic
            or mention.concept in _GENERAL
            or not taken.isdisjoint(span)
        ):
            continue
        yield Claim(
            first=mention.first,
            stop=mention.stop,
            start_ms=reading.talk.tokens[mention.first].start_ms,
            end_ms=reading.talk.tokens[mention.stop - 1].end_ms,
            kind="hold",
            concept=mention.concept,
            alternatives=mention.candidates[1:],
            generic=mention.generic,
            attributes=mention.attributes,
            status="running",
            reasons=(Reason(name="named", words=reading.talk.words(mention.first, mention.stop)),),
        )


class _Open:
    """What is known of the hold that is on while its talk is followed."""

    def __init__(self, concept: str, points: bool) -> None:
        self.concept, self.until_ms, self.seconds = concept, -1, 0
        self.last_ms = -_OPEN_MS - 1
        self.stop, self.called = 0, False
        self.least = _ALONE_FROM[points]

    def on(self, claim: Claim) -> bool:
        return claim.start_ms <= self.until_ms

    def recent(self, claim: Claim) -> bool:
        return claim.start_ms - self.last_ms <= _OPEN_MS

    def said_again(self, claim: Claim) -> bool:
        """As in "hold's on, hold's on": the same call in the same breath."""
        near = self.on(claim) and 0 <= claim.first - self.stop <= _AGAIN_WORDS
        return near and self.called and _is_call(claim)

    def extend(self, claim: Claim) -> None:
        self.last_ms, self.stop, self.called = claim.end_ms, claim.stop, _is_call(claim)
        self.until_ms = claim.end_ms + _OPEN_MS
        self.seconds = claim.seconds or (self.seconds if self.on(claim) else 0)

    def close(self) -> None:
        self.until_ms, self.seconds = -1, 0


def _followed(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    """The claims that agree with a hold being on or off when they are said, in the order of the talk."""
    hold = _Open(_ANY_HOLD[reading.points], reading.points)
    broken: Claim | None = None
    for claim in claims:
        if broken is not None:
            if (
                claim.seconds is not None
                and claim.first - broken.stop <= _AFTER_BREAK_WORDS
                and claim.status != "recalled"
            ):
                yield broken.model_copy(update={"seconds": claim.seconds})
                broken = None
                continue
            yield broken
            broken = None
        if not _agrees(claim, hold) or hold.said_again(claim):
            continue
        # "Scarf hold … osaekomi!": the call does not take back the name.
        if claim.concept and not (claim.concept in _GENERAL and hold.on(claim)):
            hold.concept = claim.concept
        claim = claim if claim.concept else claim.model_copy(update={"concept": hold.concept})
        if claim.status == "running":
            hold.extend(claim)
            yield claim
        elif claim.status == "broken" and claim.seconds is None:
            broken = claim.model_copy(update={"seconds": hold.seconds or None})
            hold.close()
        else:
            yield claim
            if claim.status in ("broken", "completed"):
                hold.close()
            elif claim.status == "supposed":
                hold.last_ms = claim.end_ms
    if broken is not None:
        yield broken


def _is_call(claim: Claim) -> bool:
    """Whether a phrase tells that a hold is on, without a count; names tell more."""
    return claim.status == "running" and claim.seconds is None and claim.reasons[0].name == "said"


def _agrees(claim: Claim, hold: _Open) -> bool:
    counted = claim.reasons[0].name == "counted"
    if claim.status == "recalled":
        return claim.seconds is not None or not hold.on(claim)
    if claim.status == "completed" and not counted:
        return hold.recent(claim)
    if claim.status == "broken":
        return hold.on(claim) or claim.seconds is not None or claim.concept != ""
    if not counted:
        return bool(claim.concept) or claim.seconds is None or hold.on(claim)
    run = len(claim.reasons[0].words.split()) > 1
    rising = hold.seconds < (claim.seconds or 0)
    # "He wants to pin him. … Eleven, twelve": what was only wanted has come about.
    if run and rising and hold.recent(claim):
        return True
    return hold.on(claim) and rising and (hold.seconds > 0 or (claim.seconds or 0) >= hold.least)


def _runs(reading: Reading, taken: frozenset[int] | set[int]) -> Iterator[list[Number]]:
    """Numbers said side by side with nothing else, each higher than the last: "eight, nine, ten"."""
    run: list[Number] = []
    for number in (*reading.numbers.values(), None):
        free = number is not None and number.first not in taken
        if number is not None and free and run and _goes_on(reading, run, number):
            run.append(number)
            continue
        if run and _counts(reading, run, taken):
            yield run
        run = [number] if number is not None else []


def _goes_on(reading: Reading, run: Sequence[Number], number: Number) -> bool:
    """Side by side without a pause they belong together, rising or not: "eight six" is no count."""
    if number.first != run[-1].stop:
        return False
    return reading.gaps[number.first] == NONE or (number.value > run[-1].value and _begins(reading, run[0]))


def _begins(reading: Reading, number: Number) -> bool:
    """Whether a count may begin there: behind a mark, at a line's start, or behind words that lead to one."""
    tokens, at = reading.talk.tokens, number.first
    line = at > 0 and tokens[at].cue != tokens[at - 1].cue
    return line or reading.gaps[at] != NONE or bool(reading.ending("count_before", at))


def _counts(reading: Reading, run: Sequence[Number], taken: frozenset[int] | set[int]) -> bool:
    """Whether the numbers are free, rising, in reach of a hold, and stand alone."""
    if any(number.form in ("noun", "zero") or number.first in taken for number in run):
        return False
    rising = all(low.value < high.value for low, high in pairwise(run))
    if run[-1].value > _LONGEST_HOLD or not rising:
        return False
    # "One fifteen" is a clock; without a pause a count goes up by one.
    if any(reading.gaps[high.first] == NONE and high.value - low.value > 1 for low, high in pairwise(run)):
        return False
    # "Fifteen sixteen" over a hold is nothing but a count, whatever stands around it.
    if len(run) > 1 and run[-1].value - run[-2].value == 1:
        return True
    if not _begins(reading, run[0]):
        return False
    stop = run[-1].stop
    return reading.gaps[stop] != NONE or bool(reading.starting("count_after", stop))


def _count(reading: Reading, run: Sequence[Number]) -> Claim:
    """One run counted aloud ("eight, nine, ten")."""
    first, stop, seconds = run[0].first, run[-1].stop, run[-1].value
    status: Status = "completed" if seconds >= _FULL_HOLD else "running"
    return Claim(
        first=first,
        stop=stop,
        start_ms=reading.talk.tokens[first].start_ms,
        end_ms=reading.talk.tokens[stop - 1].end_ms,
        kind="hold",
        concept="",
        status=status,
        seconds=seconds,
        reasons=(Reason(name="counted", words=reading.talk.words(first, stop)),),
    )
