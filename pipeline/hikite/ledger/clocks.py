"""Bounds on the match clock for every moment, from stated clocks, stops and the rule set's duration."""

from bisect import bisect_right
from itertools import pairwise
from typing import NamedTuple

from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim, Clock

ELSEWHERE = frozenset({"activity", "break", "submission-attempt", "medical", "hold", "challenge"})
SLACK_S = 3.0
"""A clock is read a moment before or after it is right, and rounded. Common practice, no source."""
RISE_S = 20.0
"""A clock that rises by more than this between two readings has begun anew."""


class Reading(NamedTuple):
    """Seconds remaining (elapsed in golden score) stated at a time, and how sure the claim is."""

    at_ms: int
    seconds: float
    sure: float


class Period(NamedTuple):
    """A stretch with one clock: its start, and its readings in time order."""

    start_ms: int
    golden: bool
    readings: tuple[Reading, ...]


class Clocks:
    """The clock of one bout; ``at(ms)`` bounds it. Periods are found from stops, starts and clock resets."""

    def __init__(self, claims: dict[int, Claim], rules: Ruleset, duration_s: int | None) -> None:
        usual = rules.durations[0]
        total = duration_s or usual.seconds
        self.length = float(total // usual.periods)
        self.stopped = _stopped(claims)
        self.risen: list[int] = []
        self.periods = self._periods(claims, usual.periods)
        self.pace = max(1.0, *(self._pace(period) for period in self.periods))
        self._starts = [period.start_ms for period in self.periods]

    def at(self, ms: int) -> Clock:
        """The clock at a moment: bounds, and the best estimate between them."""
        period = self.periods[max(0, bisect_right(self._starts, ms) - 1)]
        return self._golden(period, ms) if period.golden else self._running(period, ms)

    def _running(self, period: Period, ms: int) -> Clock:
        before, after = _around(period.readings, ms)
        last = before or Reading(min(period.start_ms, ms), self.length, 1.0)
        run = self._run(last.at_ms, ms)
        low, high, best = (
            last.seconds - run * self.pace,
            last.seconds,
            last.seconds - run * min(self.pace, 0.8),
        )
        if after:
            till = self._run(ms, after.at_ms)
            low, high = max(low, after.seconds), min(high, after.seconds + till * self.pace)
            best = after.seconds + (last.seconds - after.seconds) * till / max(run + till, 0.001)
        low, high = low - SLACK_S, high + SLACK_S
        if low > high:
            low, high = high, low
        low, high = min(max(low, 0.0), self.length), min(max(high, 0.0), self.length)
        return Clock(low_s=round(low, 1), high_s=round(high, 1), best_s=round(min(max(best, low), high), 1))

    def _golden(self, period: Period, ms: int) -> Clock:
        before, after = _around(period.readings, ms)
        last = before or Reading(min(period.start_ms, ms), 0.0, 1.0)
        run = self._run(last.at_ms, ms)
        low, high, best = last.seconds, last.seconds + run * self.pace, last.seconds + run * 0.8
        if after:
            high = min(high, after.seconds)
            low = max(low, after.seconds - self._run(ms, after.at_ms) * self.pace)
        low, high = max(0.0, min(low, high) - SLACK_S), max(low, high) + SLACK_S
        best = min(max(best, low), high)
        return Clock(low_s=round(low, 1), high_s=round(high, 1), best_s=round(best, 1), golden=True)

    def _run(self, one: int, two: int) -> float:
        """Seconds between two times that the clock can have run."""
        still = sum(max(0, min(two, stop) - max(one, start)) for start, stop in self.stopped)
        return max(0.0, (two - one - still) / 1000)

    def _pace(self, period: Period) -> float:
        """How fast the clock falls at most; above one where the recording was cut."""
        pace = 1.0
        readings = (Reading(period.start_ms, 0.0 if period.golden else self.length, 1.0), *period.readings)
        for one, two in pairwise(readings):
            moved = abs(one.seconds - two.seconds) - 2 * SLACK_S
            ran = self._run(one.at_ms, two.at_ms)
            if moved > ran:
                pace = max(pace, 1.3 * moved / max(ran, 1.0))
        return min(pace, 20.0)

    def _periods(self, claims: dict[int, Claim], most: int) -> tuple[Period, ...]:
        first = next((claim.start_ms for claim in claims.values() if _opens(claim)), None)
        opening = min((claim.start_ms for claim in claims.values()), default=0) if first is None else first
        starts: list[tuple[int, bool]] = [(opening, False)]
        readings: list[list[Reading]] = [[]]
        ended = False
        for number, claim in claims.items():
            if claim.kind == "stoppage":
                golden = claim.of == "golden-score"
                again = claim.concept in ("start", "restart") and (
                    claim.of == "period" or (ended and claim.of is None)
                )
                plain = sum(not g for _, g in starts)
                if claim.start_ms > opening and (
                    (golden and not starts[-1][1]) or (again and ended and plain < most)
                ):
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
        if claim.seconds is None or claim.status in ("recalled", "supposed", "described", "denied"):
            return
        golden = starts[-1][1]
        if claim.of == "golden-score" and not golden and claim.elapsed:
            starts.append((claim.start_ms - 1000 * claim.seconds, True))
            readings.append([])
            golden = True
        seconds = float(claim.seconds)
        if claim.elapsed and not golden:
            seconds = self.length - seconds
        if seconds < 0 or (seconds > self.length and not golden):
            return
        last = readings[-1][-1] if readings[-1] else None
        if last and not golden and seconds > last.seconds + RISE_S:
            if len(starts) < most:
                starts.append(((last.at_ms + claim.start_ms) // 2, False))
                readings.append([])
            else:
                self.risen.append(number)
        readings[-1].append(Reading(claim.start_ms, seconds, claim.confidence))


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
        weight, came = max(fits, default=(0.0, -1))
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
