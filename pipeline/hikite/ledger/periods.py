"""The stretches of a bout that have one clock each, from starts, stops and clock readings."""

from typing import NamedTuple

from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim
from hikite.records.marks import ABOUT

ELSEWHERE = frozenset({"activity", "break", "submission-attempt", "medical", "hold", "challenge"})
NOT_NOW = frozenset({"recalled", "described", "denied"})
"""Other clocks than the bout's, and readings that are not of now."""
SLACK_S, ROUGH_S = 3.0, 8.0
"""A clock is read a moment before or after it is right, and rounded; one that is told as about so much, or as
a bound, is further off. Common practice, no source."""
ROUGH = 0.4
"""How sure such a reading is beside an exact one."""
FULL_MS = 20_000
"""The whole length of a period, told later than this into it, is rather no reading of the clock."""
IDLE = 0.6
"""A clock that moves at less than this share of time stood still or was misread."""
CORRECTED_MS, CORRECTED_WORDS = 6_000, 8
"""Of two readings so close together, in time and in words, that differ the later corrects the earlier."""
SHORTEST_MS, EARLIEST = 40_000, 8
"""A period lasts at least so long; a start is called among so many first claims, or it went unsaid."""
AHEAD_S = 90.0
"""No more time than this beyond what has passed since its start can be gone from a period's clock."""
BEGUN_MS = 20_000
"""The activity clock begins at most so long after the call. Common practice, no source."""
ACTIVITY_S, ACTIVITY_MS, ASTRAY_S, FAR_S = 30.0, 35_000, 12.0, 15.0
"""How long a passive wrestler has to score (UWW, WP-02), how long after the call that clock is read, how far
such a reading may be off, and how far off the match clock it is then at least."""
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


def find_periods(
    claims: dict[int, Claim], rules: Ruleset, length: float
) -> tuple[tuple[Period, ...], tuple[int, ...]]:
    """The periods of a bout, each so many seconds long, and the claims that say the clock rose."""
    early = list(claims.values())[:EARLIEST]
    first = next((claim.start_ms for claim in early if _opens(claim)), None)
    opening = min((claim.start_ms for claim in claims.values()), default=0) if first is None else first
    periods = _Periods(opening, length, rules.durations[0].periods)
    for number, claim in claims.items():
        if claim.kind == "stoppage":
            periods.stop(claim)
        elif claim.kind == "penalty" and claim.concept == "passivity":
            periods.passive_ms = claim.start_ms
        elif claim.kind == "clock" and claim.of == "activity":
            periods.activity_ms = claim.start_ms
        elif claim.kind == "clock" and claim.of not in ELSEWHERE and claim.status not in NOT_NOW:
            periods.read(number, claim)
    return periods.found(), tuple(periods.risen)


class _Periods:
    """Periods while a bout's claims are taken in, in time order: at most ``most`` besides golden score."""

    def __init__(self, opening_ms: int, length: float, most: int) -> None:
        self.opening, self.length, self.most = opening_ms, length, most
        self.starts: list[tuple[int, bool]] = [(opening_ms, False)]
        self.readings: list[list[Reading]] = [[]]
        self.risen: list[int] = []
        self.ended, self.end_ms, self.said = False, 0, 0
        self.passive_ms = self.activity_ms = -ACTIVITY_MS

    @property
    def golden(self) -> bool:
        """Whether golden score is on."""
        return self.starts[-1][1]

    @property
    def last(self) -> Reading | None:
        """The last reading of this period."""
        return self.readings[-1][-1] if self.readings[-1] else None

    def found(self) -> tuple[Period, ...]:
        """The periods, each with the readings that hold."""
        both = zip(self.starts, self.readings, strict=True)
        return tuple(Period(start, golden, tuple(_steady(read, golden))) for (start, golden), read in both)

    def stop(self, claim: Claim) -> None:
        """Take in a start or stop: it may begin another period or golden score, or end this one."""
        golden = claim.of == "golden-score" and not self.golden
        again = claim.concept in ("start", "restart") and (
            self._named(claim) or (self.ended and claim.of in (None, "period"))
        )
        plain = sum(not extra for _, extra in self.starts)
        if claim.start_ms > self.opening and (golden or (again and plain < self.most)):
            self._begin(claim.start_ms, golden)
            self.ended = False
        if claim.concept == "end" and claim.of in (None, "period", "regulation"):
            early = claim.of is None and self._early(claim)
            self.ended, self.end_ms = not early, claim.end_ms

    def _early(self, claim: Claim) -> bool:
        """Whether so little of a period has gone that its end is not meant: "it's over … no, on we go"."""
        last = self.last or Reading(self.starts[-1][0], self.length, 1.0)
        left = last.seconds - (claim.start_ms - last.at_ms) / 1000
        return not self.golden and left > WORN * self.length

    def read(self, number: int, claim: Claim) -> None:
        """Take in what the clock is said to show."""
        if claim.seconds is None:
            return
        told = claim.of == "golden-score" and claim.status == "stated"
        if told and not self.golden and claim.elapsed:
            self._begin(max(claim.start_ms - 1000 * claim.seconds, self.end_ms), True)
        seconds, rough = self._shown(claim, float(claim.seconds)), ABOUT in claim.attributes
        if seconds is None or self._activity(claim):
            return
        last = self.last
        soon = last is not None and claim.start_ms - last.at_ms < CORRECTED_MS
        put_right = soon and claim.first - self.said <= CORRECTED_WORDS
        whole = self._whole(claim, seconds)
        if last and soon and rough and last.slack == SLACK_S:
            return
        if last and self._rises(last, claim, seconds):
            if len(self.starts) < self.most and seconds >= ANEW * self.length:
                self._begin((last.at_ms + claim.start_ms) // 2, False)
            else:
                self.risen.append(number)
        elif last and put_right and not whole and abs(seconds - last.seconds) > SLACK_S:
            self.readings[-1].pop()
        self.said = claim.stop
        sure = claim.confidence * (1.0 if claim.status == "stated" else 0.6)
        sure *= ROUGH if rough or whole else 1.0
        self.readings[-1].append(Reading(claim.start_ms, seconds, sure, ROUGH_S if rough else SLACK_S))

    def _activity(self, claim: Claim) -> bool:
        """Whether a reading is rather of the clock that runs against a passive wrestler."""
        told, began = float(claim.seconds or 0), claim.start_ms - self.passive_ms <= BEGUN_MS
        if began and told == ACTIVITY_S and not claim.elapsed:
            self.activity_ms = claim.start_ms
        since = claim.start_ms - self.activity_ms
        if claim.elapsed or told > ACTIVITY_S or since > ACTIVITY_MS:
            return False
        last = self.last or Reading(self.starts[-1][0], self.length, 1.0)
        match = last.seconds - (claim.start_ms - last.at_ms) / 1000
        return abs(ACTIVITY_S - since / 1000 - told) <= ASTRAY_S and match - told > FAR_S

    def _begin(self, start_ms: int, golden: bool) -> None:
        self.starts.append((start_ms, golden))
        self.readings.append([])

    def _named(self, claim: Claim) -> bool:
        """Whether a period is named that may follow this one."""
        worn = self.last is None or self.last.seconds <= WORN * self.length
        return claim.of == "period" and claim.start_ms - self.starts[-1][0] > SHORTEST_MS and worn

    def _shown(self, claim: Claim, seconds: float) -> float | None:
        """Seconds remaining (elapsed in golden score) as told, nothing where no clock shows so much."""
        into = (claim.start_ms - self.starts[-1][0]) / 1000
        if claim.elapsed and not self.golden and seconds <= max(into, 0) + AHEAD_S:
            seconds = self.length - seconds
        if self.golden and seconds >= self.length and claim.of != "golden-score":
            # told as the whole bout's length: "after four minutes fifty-five"
            seconds -= self.length
        possible = seconds >= 0 and (self.golden or seconds <= self.length)
        return seconds if possible else None

    def _whole(self, claim: Claim, seconds: float) -> bool:
        """Whether a period's whole length is told well into it."""
        into_ms = claim.start_ms - self.starts[-1][0]
        return seconds == self.length and not self.golden and into_ms > FULL_MS

    def _rises(self, last: Reading, claim: Claim, seconds: float) -> bool:
        """Whether the clock has risen since the last reading, and is no correction of it."""
        apart = claim.start_ms - last.at_ms > CORRECTED_MS
        return not self.golden and seconds > last.seconds + RISE_S and apart


def _odd(one: Reading, two: Reading) -> float:
    """What speaks against two readings in a row: a clock that stood still, or fell too fast."""
    ran, moved = (two.at_ms - one.at_ms) / 1000, abs(one.seconds - two.seconds)
    if moved == 0 and ran > 15:
        return 0.4
    if ran > 15 and moved < IDLE * ran:
        return 0.2 * (1 - moved / (IDLE * ran))
    return 0.3 * min(1.0, max(0.0, moved - 2 * SLACK_S - ran) / max(ran, 5.0))


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
