"""Bounds on the match clock for every moment, from stated clocks, stops and the rule set's duration."""

from bisect import bisect_right
from itertools import pairwise
from statistics import median
from typing import NamedTuple

from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim, Clock

ELSEWHERE = frozenset({"activity", "break", "submission-attempt", "medical", "hold", "challenge"})
SLACK_S, ROUGH_S = 3.0, 8.0
"""A clock is read a moment before or after it is right, and rounded; one that is told as about so much, or as
a bound, is further off. Common practice, no source."""
ABOUT, ROUGH = "about", 0.4
"""The mark of such a reading, and how sure it is beside an exact one."""
FULL_MS = 20_000
"""The whole length of a period, told later than this into it, is rather no reading of the clock."""
IDLE = 0.6
"""A clock that moves at less than this share of time stood still or was misread."""
SPARE, CUT = 1.3, 1.2
"""Room given to a pace; a faster one than ``CUT`` is no clock's: a cut, or a restart unsaid."""
CORRECTED_MS = 6_000
"""Of two readings so close together that differ, the later one corrects the earlier."""
SHORTEST_MS, EARLIEST = 40_000, 8
"""A period lasts at least so long; a start is called among so many first claims, or it went unsaid."""
WORN = 0.6
"""A period does not end while more than this share of it is left."""
RISE_S, ANEW = 20.0, 0.4
"""A clock that rises by more than this between two readings, to so much of the whole, has begun anew."""


class Reading(NamedTuple):
    """Seconds remaining (elapsed in golden score) stated at a time, and how sure the claim is."""

    at_ms: int
    seconds: float
    sure: float
    slack: float = SLACK_S


class Period(NamedTuple):
    """A stretch with one clock: its start, and its readings in time order."""

    start_ms: int
    golden: bool
    readings: tuple[Reading, ...]


class Clocks:
    """The clock of one bout; ``at(ms)`` bounds it. Periods are found from stops, starts and clock resets.

    Between two readings the clock neither rises nor falls faster than time, stops left out. Where two
    readings are further apart than the time between them, the recording was cut; the pace found there
    bounds the moments between.
    """

    def __init__(self, claims: dict[int, Claim], rules: Ruleset, duration_s: int | None) -> None:
        usual = rules.durations[0]
        total = duration_s or usual.seconds
        self.length = float(total // usual.periods)
        self.stopped = _stopped(claims)
        self.risen: list[int] = []
        self.periods = self._periods(claims, usual.periods)
        paces = [pace for period in self.periods for pace in self._paces(period)]
        if paces and max(paces) > CUT:
            self.stopped = []
            paces = [pace for period in self.periods for pace in self._paces(period)]
        self.pace = max(1.0, median(paces) * SPARE) if paces else 1.0
        self._starts = [period.start_ms for period in self.periods]

    def at(self, ms: int) -> Clock:
        """The clock at a moment: bounds, and the best estimate between them."""
        period = self.periods[max(0, bisect_right(self._starts, ms) - 1)]
        before, after = _around(period.readings, ms)
        sign = 1.0 if period.golden else -1.0
        slack = max(one.slack for one in (before, after) if one) if before or after else SLACK_S
        last = before or Reading(min(period.start_ms, ms), 0.0 if period.golden else self.length, 1.0)
        run = self._run(last.at_ms, ms)
        far, best = last.seconds + sign * run * self.pace, last.seconds + sign * run * min(self.pace, 0.8)
        low, high = min(last.seconds, far), max(last.seconds, far)
        if after:
            till = self._run(ms, after.at_ms)
            pace = max(1.0, SPARE * abs(after.seconds - last.seconds) / max(run + till, 1.0))
            ahead, back = last.seconds + sign * run * pace, after.seconds - sign * till * pace
            low = max(min(last.seconds, after.seconds), min(ahead, back))
            high = min(max(last.seconds, after.seconds), max(ahead, back))
            best = last.seconds + (after.seconds - last.seconds) * run / max(run + till, 0.001)
        return self._clock(low - slack, high + slack, best, period.golden)

    def _clock(self, low: float, high: float, best: float, golden: bool) -> Clock:
        top = 3600.0 if golden else self.length
        low, high = min(max(low, 0.0), top), min(max(high, 0.0), top)
        best = min(max(best, low), high)
        return Clock(low_s=round(low, 1), high_s=round(high, 1), best_s=round(best, 1), golden=golden)

    def _run(self, one: int, two: int) -> float:
        """Seconds between two times that the clock can have run."""
        still = sum(max(0, min(two, stop) - max(one, start)) for start, stop in self.stopped)
        return max(0.0, (two - one - still) / 1000)

    def _paces(self, period: Period) -> list[float]:
        """How fast the clock moved from each reading to the next."""
        return [
            abs(one.seconds - two.seconds) / ran
            for one, two in pairwise(period.readings)
            if (ran := self._run(one.at_ms, two.at_ms)) > 5
        ]

    def _periods(self, claims: dict[int, Claim], most: int) -> tuple[Period, ...]:
        early = list(claims.values())[:EARLIEST]
        first = next((claim.start_ms for claim in early if _opens(claim)), None)
        opening = min((claim.start_ms for claim in claims.values()), default=0) if first is None else first
        starts: list[tuple[int, bool]] = [(opening, False)]
        readings: list[list[Reading]] = [[]]
        ended = False
        for number, claim in claims.items():
            if claim.kind == "stoppage":
                golden = claim.of == "golden-score"
                worn = not readings[-1] or readings[-1][-1].seconds <= WORN * self.length
                named = claim.of == "period" and claim.start_ms - starts[-1][0] > SHORTEST_MS and worn
                again = claim.concept in ("start", "restart") and (named or (ended and claim.of is None))
                plain = sum(not g for _, g in starts)
                if claim.start_ms > opening and ((golden and not starts[-1][1]) or (again and plain < most)):
                    starts.append((claim.start_ms, golden))
                    readings.append([])
                    ended = False
                ended = ended or (claim.concept == "end" and claim.of in (None, "period", "regulation"))
            elif claim.kind == "clock" and claim.seconds is not None and claim.of not in ELSEWHERE:
                self._read(number, claim, starts, readings, most)
        found = [
            Period(start, g, tuple(_steady(read, g)))
            for (start, g), read in zip(starts, readings, strict=True)
        ]
        return tuple(found)

    def _read(
        self,
        number: int,
        claim: Claim,
        starts: list[tuple[int, bool]],
        readings: list[list[Reading]],
        most: int,
    ) -> None:
        if claim.seconds is None or claim.status in ("recalled", "described", "denied"):
            return
        golden = starts[-1][1]
        if claim.of == "golden-score" and not golden and claim.elapsed:
            starts.append((claim.start_ms - 1000 * claim.seconds, True))
            readings.append([])
            golden = True
        seconds = float(claim.seconds)
        if claim.elapsed and not golden:
            seconds = self.length - seconds
        if golden and seconds >= self.length and claim.of != "golden-score":
            # told as the whole bout's length: "after four minutes fifty-five"
            seconds -= self.length
        if seconds < 0 or (seconds > self.length and not golden):
            return
        last = readings[-1][-1] if readings[-1] else None
        whole = seconds == self.length and not golden and claim.start_ms - starts[-1][0] > FULL_MS
        rough, soon = ABOUT in claim.attributes, last and claim.start_ms - last.at_ms < CORRECTED_MS
        if last and soon and rough and last.slack == SLACK_S:
            return
        if (
            last
            and not golden
            and seconds > last.seconds + RISE_S
            and claim.start_ms - last.at_ms > CORRECTED_MS
        ):
            if len(starts) < most and seconds >= ANEW * self.length:
                starts.append(((last.at_ms + claim.start_ms) // 2, False))
                readings.append([])
                last = None
            else:
                self.risen.append(number)
        if last and soon and not whole and abs(seconds - last.seconds) > SLACK_S:
            readings[-1].pop()
        sure = (
            claim.confidence * (1.0 if claim.status == "stated" else 0.6) * (ROUGH if rough or whole else 1.0)
        )
        readings[-1].append(Reading(claim.start_ms, seconds, sure, ROUGH_S if rough else SLACK_S))


def _odd(one: Reading, two: Reading) -> float:
    """What speaks against two readings in a row: a clock that stood still, or fell too fast."""
    ran, moved = (two.at_ms - one.at_ms) / 1000, abs(one.seconds - two.seconds)
    if moved == 0 and ran > 15:
        return 0.4
    if ran > 15 and moved < IDLE * ran:
        return 0.2 * (1 - moved / (IDLE * ran))
    return 0.3 * min(1.0, max(0.0, moved - 2 * SLACK_S - ran) / max(ran, 5.0))


def _around(readings: tuple[Reading, ...], ms: int) -> tuple[Reading | None, Reading | None]:
    """The last reading at or before a moment and the first after it."""
    at = bisect_right(readings, ms, key=lambda reading: reading.at_ms)
    return readings[at - 1] if at else None, readings[at] if at < len(readings) else None


def _opens(claim: Claim) -> bool:
    return claim.kind == "stoppage" and claim.concept == "start" and claim.of != "golden-score"


def _steady(readings: list[Reading], golden: bool) -> list[Reading]:
    """The most readings (weighed by sureness) that never rise — in golden score, never fall."""
    best: list[tuple[float, int]] = []
    for at, reading in enumerate(readings):
        fits = [
            (best[k][0], k) for k in range(at)
            if (readings[k].seconds >= reading.seconds) != golden or readings[k].seconds == reading.seconds
        ]  # fmt: skip
        weight, came = max(((w - _odd(readings[k], reading), k) for w, k in fits), default=(0.0, -1))
        best.append((weight + reading.sure, came))
    kept: list[Reading] = []
    at = max(range(len(best)), key=lambda k: best[k][0], default=-1)
    while at >= 0:
        kept.append(readings[at])
        at = best[at][1]
    return kept[::-1]


def _stopped(claims: dict[int, Claim]) -> list[tuple[int, int]]:
    """The stretches between a stop and the next restart, when both were called."""
    stretches, since = [], None
    for claim in claims.values():
        if claim.kind != "stoppage":
            continue
        if claim.concept in ("stop", "end"):
            since = claim.end_ms
        elif claim.concept in ("start", "restart") and since is not None:
            stretches.append((since, claim.start_ms))
            since = None
    return [(start, stop) for start, stop in stretches if stop > start]
