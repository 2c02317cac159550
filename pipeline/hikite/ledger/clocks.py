"""Bounds on the match clock for every moment, from stated clocks, stops and the rule set's duration."""

from bisect import bisect_right
from itertools import pairwise
from statistics import median

from hikite.ledger.periods import SLACK_S, Period, Reading, find_periods
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim, Clock

ACTING = frozenset({"completed", "attempted", "failed", "taken", "broken"})
"""How what is done now is told."""
UNSAID_MS = 5_000
"""So soon after a stop it goes on where nobody says when. Common practice, no source."""
SPARE, CUT = 1.3, 1.2
"""Room given to a pace; a faster one than ``CUT`` is no clock's: a cut, or a restart unsaid."""


class Clocks:
    """The clock of one bout; ``at(ms)`` bounds it. ``risen`` are the claims that say it rose.

    Between two readings the clock neither rises nor falls faster than time, stops left out. Where two
    readings are further apart than the time between them, the recording was cut; the pace found there
    bounds the moments between.
    """

    def __init__(self, claims: dict[int, Claim], rules: Ruleset, duration_s: int | None) -> None:
        usual = rules.durations[0]
        total = duration_s or usual.seconds
        self.length = float(total // usual.periods)
        self.stopped = _stopped(claims)
        self.periods, self.risen = find_periods(claims, rules, self.length)
        paces = [pace for period in self.periods for pace in self._paces(period)]
        if paces and max(paces) > CUT:
            self.stopped = []
            paces = [pace for period in self.periods for pace in self._paces(period)]
        self.pace = max(1.0, median(paces) * SPARE) if paces else 1.0
        self._starts = [period.start_ms for period in self.periods]
        self._read_at = [[reading.at_ms for reading in period.readings] for period in self.periods]

    def at(self, ms: int) -> Clock:
        """The clock at a moment: bounds, and the best estimate between them."""
        number = max(0, bisect_right(self._starts, ms) - 1)
        period = self.periods[number]
        before, after = self._around(number, ms)
        sign = 1.0 if period.golden else -1.0
        slack = max([one.slack for one in (before, after) if one], default=SLACK_S)
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

    def _around(self, number: int, ms: int) -> tuple[Reading | None, Reading | None]:
        """The last reading of a period at or before a moment and the first after it."""
        at, readings = bisect_right(self._read_at[number], ms), self.periods[number].readings
        return readings[at - 1] if at else None, readings[at] if at < len(readings) else None

    def _run(self, one: int, two: int) -> float:
        """Seconds between two times that the clock can have run."""
        still = sum(
            [min(two, stop) - max(one, start) for start, stop in self.stopped if start < two and stop > one]
        )
        return max(0.0, (two - one - still) / 1000)

    def _paces(self, period: Period) -> list[float]:
        """How fast the clock moved from each reading to the next."""
        return [
            abs(one.seconds - two.seconds) / ran
            for one, two in pairwise(period.readings)
            if (ran := self._run(one.at_ms, two.at_ms)) > 5
        ]


def _stopped(claims: dict[int, Claim]) -> list[tuple[int, int]]:
    """The stretches between a stop and the next restart, when both were called.

    Whoever takes a grip or attacks meanwhile does so because it went on with nobody saying so.
    """
    stretches: list[tuple[int, int]] = []
    since, ended = None, False
    for claim in claims.values():
        if since is not None and not ended and _acts(claim) and claim.start_ms - since > UNSAID_MS:
            stretches.append((since, since + UNSAID_MS))
            since = None
        if claim.kind != "stoppage":
            continue
        if claim.concept in ("stop", "end"):
            since, ended = claim.end_ms, claim.concept == "end"
        elif claim.concept in ("start", "restart") and since is not None:
            stretches.append((since, claim.start_ms))
            since = None
    return [(start, stop) for start, stop in stretches if stop > start]


def _acts(claim: Claim) -> bool:
    """Whether a claim tells of what is being done."""
    return claim.kind in ("technique", "grip") and claim.status in ACTING
