"""Clock readings in every spoken form, as seconds left or gone."""

from collections.abc import Iterator, Sequence

from hikite.claims.said.awards import FURTHER, near
from hikite.claims.said.countdowns import in_one_breath, tick
from hikite.claims.said.drafting import PSEUDO, stands
from hikite.claims.said.fused import find_fused
from hikite.claims.said.gaps import HARD, NONE, SOFT
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason
from hikite.records.marks import ABOUT
from hikite.records.spans import tokens_of

# "one fifty-eight" is a clock, "seven six" is a score: a minute hand no bout has, or no tens of seconds.
_MINUTES, _SECONDS = 9, 60
_LONG_BOUT = 6
# No bout's clock shows more: "foot sweeps on Tuesday, twenty minutes". Set by hand.
_LONGEST_S = 900
# Nobody counts so many seconds: "401" is forty-one, tens and ones written together.
_RUN_TOGETHER, _TEN = range(200, 1000), 10
# Lower numbers may be awards.
_COUNTS_TO = 5
_GOING_DOWN_WITHIN = 4
_HALF = "half"
# A number alone is the clock when the last reading leads to about so much by now.
_EARLY_S, _LATE_S, _FORESEEN_S = 3, 4, 75
_NEXT_TO_HUNDRED = 100
_EARLY_MS = 45_000
# A number alone is a clock where it is too high for a score or a count.
_ALONE_FROM = 29


def find_clocks(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a clock reading: ``seconds`` left, or gone where ``elapsed``; ``of`` says of which clock."""
    claims = list(in_one_breath(reading, taken))
    busy = set(taken | tokens_of(claims))
    for weight, hit in sorted(
        _weighed(reading), key=lambda pair: (-(pair[1].stop - pair[1].first), -pair[0])
    ):
        free = busy.isdisjoint(range(hit.first, hit.stop))
        claim = _claim(reading, hit, weight) if free else None
        if claim is not None and busy.isdisjoint(range(claim.first, claim.stop)):
            busy.update(range(claim.first, claim.stop))
            claims.append(claim)
    for claim in tuple(claims):
        lower = tuple(_going_down(reading, claim, busy))
        busy |= tokens_of(lower)
        claims.extend(lower)
    claims.sort(key=lambda claim: claim.first)
    busy |= tokens_of(claims)
    claims.extend(_foreseen(reading, claims, busy))
    return tuple(sorted(claims, key=lambda claim: claim.first))


def _going_down(reading: Reading, claim: Claim, busy: set[int]) -> Iterator[Claim]:
    """As in "twenty seconds, fifteen": a lower number alone right after a reading is the next one."""
    seconds = claim.seconds or 0
    for first in range(claim.stop, claim.stop + _GOING_DOWN_WITHIN):
        number = reading.numbers.get(first)
        if number is None or first in busy or not (reading.gaps[first] and reading.gaps[number.stop]):
            continue
        if _COUNTS_TO < number.value < seconds <= _SECONDS and not claim.elapsed:
            yield tick(reading, first)
            return


def _foreseen(reading: Reading, claims: Sequence[Claim], busy: set[int]) -> Iterator[Claim]:
    """As in "Twelve …" said alone just when the clock, from what it last showed, comes to twelve."""
    told = [claim for claim in claims if claim.status == "stated" and not claim.elapsed and claim.of is None]
    for number in reading.numbers.values():
        first, stop = number.first, number.stop
        alone = (
            reading.gaps[first] == HARD and reading.gaps[stop] != NONE and number.form in ("word", "digits")
        )
        if first in busy or not alone or not _COUNTS_TO < number.value < _NEXT_TO_HUNDRED:
            continue
        last = max((claim for claim in told if claim.first < first), key=lambda one: one.first, default=None)
        if last is None or last.seconds is None:
            continue
        run = (reading.talk.tokens[first].start_ms - last.start_ms) / 1000
        if run > _FORESEEN_S or not -_EARLY_S <= number.value - (last.seconds - run) <= _LATE_S:
            continue
        if number.value < last.seconds:
            claim = tick(reading, first).model_copy(update={"reasons": (Reason(name="foreseen"),)})
            told.append(claim)
            told.sort(key=lambda one: one.first)
            yield claim


def _weighed(reading: Reading) -> Iterator[tuple[float, Hit]]:
    for hit in reading.hits.get("clock", ()):
        if stands(reading, hit) and not any(not_one(reading, hit) for not_one in _NO_CLOCK):
            yield hit.entry.weight, hit
    alone = [
        hit
        for hit in reading.hits.get("clock_alone", ())
        if stands(reading, hit) and _ALONE_FROM < hit.values[0] < _SECONDS
    ]
    scores = tokens_of(find_fused(reading, frozenset())) if alone else frozenset()
    for hit in alone:
        if hit.first not in scores:
            yield hit.entry.weight, hit
    for hit in reading.hits.get("clock_pair", ()):
        weight = _pair_weight(reading, hit)
        if weight is not None:
            yield weight, hit


def _second(reading: Reading, hit: Hit) -> bool:
    """Whether a bare number is the second of a pair: "7-3 on the board" has no three seconds."""
    bare = len(hit.fillers) == 1 and (hit.fillers[0].first, hit.fillers[0].stop) == (hit.first, hit.stop)
    return bare and hit.first in reading.number_stops and reading.gaps[hit.first] == NONE


def _parted(reading: Reading, hit: Hit) -> bool:
    """As in "mat three, second round": whether a mark parts a number from the word for what it counts."""
    stops = {filler.stop for filler in hit.fillers if filler.stop < hit.stop}
    return any(reading.gaps[at] != NONE and at not in reading.numbers for at in stops)


def _counts_else(reading: Reading, hit: Hit) -> bool:
    """As in "five minutes eight points up": whether the number behind the minutes counts something else."""
    stop = hit.stop
    if len(hit.values) < 2 or hit.fillers[-1].stop != stop or reading.gaps[stop] == HARD:
        return False
    units = reading.starting("award_unit", stop)
    fault = any(one.first == stop for one in reading.hits.get("penalty", ()))
    return stop in reading.classes or fault or any(one.entry.concept != FURTHER for one in units)


def _an_ordinal(reading: Reading, hit: Hit) -> bool:
    """As in "another one second warning for blue": whether its last word is rather a penalty's first."""
    return any(
        hit.first < one.first < hit.stop < one.stop and one.entry.concept != PSEUDO
        for one in reading.hits.get("penalty", ())
    )


_NO_CLOCK = (_second, _parted, _counts_else, _an_ordinal)


def _pair_weight(reading: Reading, hit: Hit) -> float | None:
    """Evidence that minutes and seconds are meant by two bare numbers; None where they cannot be."""
    minutes, seconds = hit.values[0], hit.values[-1]
    first, second = (filler for filler in hit.fillers if filler.slot in ("<n>", "<z>"))
    if minutes > _MINUTES or seconds >= _SECONDS or any(reading.written[first.stop : second.first + 1]):
        return None
    said_oh = second.first > first.stop
    colon = reading.talk.tokens[first.stop - 1].after == ":"
    # "3:1" is a score: a clock is written 3:01.
    if seconds < 10 and not said_oh and not (colon and len(reading.words[second.first]) > 1):
        return None
    weight = hit.entry.weight + 3.0 * colon + 2.0 * said_oh
    weight += 0.5 if minutes < _LONG_BOUT else -2.0
    weight += 1.0 if seconds >= 20 or not reading.points else 0.0
    return weight


def _claim(reading: Reading, hit: Hit, weight: float) -> Claim | None:
    before = _best(reading.ending("clock_before", hit.first)) if reading.gaps[hit.first] <= SOFT else None
    after = _best(near(reading.starting("clock_after", hit.stop), reading.gaps[hit.stop]))
    cues = tuple(cue for cue in (before, after) if cue is not None)
    weight += sum(cue.entry.weight for cue in cues)
    seconds = _seconds(reading, hit)
    if weight <= 0 or seconds is None or seconds > _LONGEST_S:
        return None
    # A tail belongs to the reading when it alone tells what the number is.
    first = hit.first
    stop = after.stop if after is not None and after.entry.weight > 0 else hit.stop
    # "Into the last two minutes" tells what is left.
    bound = hit.entry.concept == ABOUT
    elapsed = hit.entry.elapsed or (not bound and any(cue.entry.elapsed for cue in cues))
    if elapsed and _bare(hit) and seconds <= _COUNTS_TO:
        return None
    named = [cue.entry.of for cue in (*cues, hit) if cue.entry.of]
    return Claim(
        **reading.talk.span(first, stop),
        kind="clock",
        concept="clock",
        status=status_at(reading, first, stop, "stated"),
        seconds=seconds,
        elapsed=elapsed,
        attributes=(ABOUT,) if any(one.entry.concept == ABOUT for one in (*cues, hit)) else (),
        of=named[0] if named else None,
        reasons=tuple(
            Reason(name="clock", words=_words(reading, cue), weight=cue.entry.weight) for cue in cues
        ),
    )


def _seconds(reading: Reading, hit: Hit) -> int | None:
    if hit.entry.concept == _HALF:
        return reading.duration_s // 2 if reading.duration_s else None
    times = hit.entry.times
    if times == (60, 1) and hit.values[-1] >= _SECONDS:
        return None
    if _whole_bout(reading, hit):
        return reading.duration_s
    if times == (1,) and hit.values[0] in _RUN_TOGETHER and 0 < hit.values[0] % 100 < _TEN:
        return hit.values[0] // 100 * _TEN + hit.values[0] % _TEN
    return round(sum(value * time for value, time in zip(hit.values, times, strict=False)) + hit.entry.plus)


def _whole_bout(reading: Reading, hit: Hit) -> bool:
    """As in "four on the clock" as a bout of four minutes begins."""
    early = reading.talk.tokens[hit.first].start_ms < _EARLY_MS
    bare = len(hit.values) == 1 and hit.entry.times == (1,) and hit.stop == hit.first + 1
    return early and bare and hit.values[0] * 60 == reading.duration_s


def _bare(hit: Hit) -> bool:
    """Whether a number alone is all that is said: "one in a row" tells no second gone."""
    return len(hit.values) == 1 and hit.stop - hit.first == 1


def _best(hits: Sequence[Hit]) -> Hit | None:
    return max(hits, key=lambda hit: (hit.stop - hit.first, abs(hit.entry.weight)), default=None)


def _words(reading: Reading, hit: Hit) -> str:
    return reading.talk.words(hit.first, hit.stop)
