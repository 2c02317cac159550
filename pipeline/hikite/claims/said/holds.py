"""Holds: called, counted aloud, broken or held to the end, with the seconds said."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from hikite.claims.said.drafting import draft, whole_hits
from hikite.claims.said.numbers import Number
from hikite.claims.said.reading import NONE, Reading
from hikite.records import Claim, Reason, Status

_ANY_HOLD = {True: "hold-down", False: "osaekomi"}
# A count this long after the hold was last spoken of is a count of something else.
_OPEN_MS = 25_000
_LONGEST_HOLD = 30
_FULL_HOLD = 20
# "Four!" over a hold is rather an award; a count that begins alone begins later.
_ALONE_FROM = 5
_NEAR = 6


def find_holds(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Holds ``running``, ``broken`` or ``completed``; ``seconds`` where a count or a length was said."""
    named = list(_named(reading, taken))
    busy = taken | {index for claim in named for index in range(claim.first, claim.stop)}
    said = [
        draft(reading, hit, "hold", "running", seconds=hit.values[0] if hit.values else None)
        for hit in whole_hits(reading, "hold", busy)
    ]
    busy |= {index for claim in said for index in range(claim.first, claim.stop)}
    spoken = sorted((*named, *said), key=lambda claim: claim.first)
    counted = list(_counts(reading, spoken, busy))
    return _with_concepts(reading, sorted((*spoken, *counted), key=lambda claim: claim.first))


def _named(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for mention in reading.mentions:
        span = range(mention.first, mention.stop)
        if mention.kind != "hold" or not taken.isdisjoint(span):
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


def _counts(reading: Reading, spoken: Sequence[Claim], taken: frozenset[int]) -> Iterator[Claim]:
    """Numbers counted aloud while a hold is on, one claim a run ("eight, nine, ten")."""
    firsts = [claim.first for claim in spoken]
    last_ms, last_value = -_OPEN_MS, 0
    seen = 0
    for run in _runs(reading, taken):
        now = reading.talk.tokens[run[0].first].start_ms
        here = bisect_right(firsts, run[0].first)
        for claim in spoken[seen:here]:
            if claim.status == "running":
                last_ms, last_value = claim.end_ms, claim.seconds or 0
            elif claim.status in ("broken", "completed"):
                last_ms = -_OPEN_MS
        seen = here
        if now - last_ms > _OPEN_MS or not _counts_on(run, last_value):
            continue
        last_ms, last_value = reading.talk.tokens[run[-1].stop - 1].end_ms, run[-1].value
        status = _count_status(reading, run[-1], spoken[here : here + 1])
        if status == "broken":
            last_ms = -_OPEN_MS
        yield _count(reading, run, status)


def _runs(reading: Reading, taken: frozenset[int]) -> Iterator[list[Number]]:
    """Numbers that stand alone, neighbours together, each run rising."""
    run: list[Number] = []
    for number in reading.numbers.values():
        if number.first in taken or number.form in ("noun", "zero") or not _stands_alone(reading, number):
            continue
        if run and (number.first != run[-1].stop or number.value <= run[-1].value):
            yield run
            run = []
        run.append(number)
    if run:
        yield run


def _stands_alone(reading: Reading, number: Number) -> bool:
    begins = (
        reading.gaps[number.first] != NONE
        or number.first in reading.number_stops
        or bool(reading.ending("count_before", number.first))
    )
    return begins and (
        reading.gaps[number.stop] != NONE
        or number.stop in reading.numbers
        or bool(reading.starting("count_after", number.stop))
    )


def _counts_on(run: Sequence[Number], last_value: int) -> bool:
    first, final = run[0].value, run[-1].value
    if final > _LONGEST_HOLD or first <= last_value:
        return False
    return len(run) > 1 or last_value > 0 or first >= _ALONE_FROM


def _count_status(reading: Reading, last: Number, following: Sequence[Claim]) -> Status:
    near = bool(following) and following[0].first - last.stop <= _NEAR
    if near and following[0].status in ("broken", "completed") and following[0].seconds is None:
        return following[0].status
    return "completed" if last.value >= _FULL_HOLD else "running"


def _count(reading: Reading, run: Sequence[Number], status: Status) -> Claim:
    first, stop = run[0].first, run[-1].stop
    return Claim(
        first=first,
        stop=stop,
        start_ms=reading.talk.tokens[first].start_ms,
        end_ms=reading.talk.tokens[stop - 1].end_ms,
        kind="hold",
        concept="",
        status=status,
        seconds=run[-1].value,
        reasons=(Reason(name="counted", words=reading.talk.words(first, stop)),),
    )


def _with_concepts(reading: Reading, claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """Counts and breaks are of the hold last named."""
    named, whole = _ANY_HOLD[reading.points], []
    for claim in claims:
        if claim.concept:
            named = claim.concept
            whole.append(claim)
        else:
            whole.append(claim.model_copy(update={"concept": named}))
    return tuple(whole)
