"""Whether a bout is on at a moment, so that what is told over is not counted again."""

from hikite.ledger.deeds import DONE, chance
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim
from hikite.records.marks import TAKEN_BACK

GRACE_MS, CALLED = 12_000, 0.7
"""An award just after the end is often of it; and P(the bout is over | an end is called). Common practice, no
source."""
DOUBTED = 0.5
"""An end less sure than this before another is called was none. Common practice, no source."""
LAST_S, OVERRUN_MS, RUN_OUT, NEVER = 30, 8_000, 0.6, 10**10
"""So few seconds left and so long after them without another word of the clock, time is probably up."""
YOUNG_MS, AHEAD_S = 60_000, 20
"""No time is up so soon after the start; and no clock runs faster than time, but for so much that it was
misread. Common practice, no source."""
ENDS, DENIED = frozenset({"ippon", "total-victory", "fall", "submission"}), 0.6
"""What ends a bout, and how surely it must be denied to say that the bout goes on."""
GOLDEN, GOES_ON = "golden-score", 0.15
"""Who speaks of golden score says that the bout goes on: what is left of the chance that it is over."""
OPENING = 10
"""A start comes among so many first claims of a bout, or the recording begins after it."""


def opening_of(claims: list[Claim]) -> int:
    """When the bout starts, if a start is called among its first claims."""
    calls = (claim for claim in claims if claim.kind == "stoppage" and claim.of is None)
    return next((claim.start_ms for claim in calls if claim.concept == "start"), 0)


class Course:
    """Whether the bout is on, by the starts, ends and results called; a restart takes an end back."""

    def __init__(self, rules: Ruleset, opening_ms: int) -> None:
        self.opening, self.expires = opening_ms, NEVER
        self.periods, self.ends, self.over, self.since = rules.durations[0].periods, 0, 0.0, 0
        self.read: tuple[int, int] | None = None
        self.called: tuple[float, int] | None = None

    def live(self, at: int) -> float:
        """What is left of the chance that something said now happens now and is not told over."""
        if at < self.opening:
            return 0.1
        if at > self.expires and self.over < RUN_OUT:
            self._close(RUN_OUT, self.expires)
        if self.called is not None and at - self.called[1] > GRACE_MS:
            self._close(*self.called)
            self.called = None
        return 1 - self.over * (0.5 if at - self.since < GRACE_MS else 0.9)

    def just_called(self, claim: Claim) -> float:
        """P(what was called a moment ago ended the bout), for a clock read then: "Ippon! Thirty seconds!"."""
        return 0.0 if self.called is None or claim.vouched or claim.kind != "clock" else self.called[0]

    def hear(self, claim: Claim) -> None:
        """Take in one claim."""
        if claim.kind == "stoppage" and claim.concept == "end" and claim.of in (None, "period", "regulation"):
            self.ends += 1
            if self.ends >= self.periods:
                self._close(CALLED, claim.start_ms)
        elif claim.kind in ("score", "result") and _taken_back(claim):
            self.over, self.called = self.over * GOES_ON, None
        elif claim.kind == "score":
            self._score(claim)
        elif claim.kind == "result" and claim.concept != "points":
            self._close(0.8 * chance(claim, *DONE), claim.start_ms)
        elif claim.kind == "result":
            self._close(0.6 * chance(claim, *DONE), claim.start_ms)
        elif claim.kind == "stoppage" and claim.concept in ("start", "restart"):
            self.over, self.expires, self.called = 0.0, NEVER, None
        elif claim.kind == "stoppage":
            self.expires = NEVER
        elif claim.of == GOLDEN and claim.status == "stated":
            self.over, self.expires = self.over * GOES_ON, NEVER
        elif claim.kind == "clock" and claim.status == "stated" and (claim.seconds or claim.elapsed):
            self._clock(claim)

    def _score(self, claim: Claim) -> None:
        """What ends the bout, unless less is given at once: "Ippon! No, waza-ari"."""
        given = chance(claim, *DONE)
        if claim.concept in ENDS:
            self.called = self.called or (0.8 * given, claim.start_ms)
        elif given > DOUBTED:
            self.called = None

    def _clock(self, claim: Claim) -> None:
        """A clock of time left, if it can be this bout's: "with nine seconds left" of another is none."""
        mine = claim.of in (None, "period", "bout")
        running = mine and not claim.elapsed and claim.seconds is not None
        left, at = claim.seconds or 0, claim.start_ms
        if running and self._too_low(left, at):
            return
        self.over *= 0.5
        last = running and self.ends >= self.periods - 1 and left <= LAST_S
        self.expires = at + 1000 * left + OVERRUN_MS if last else NEVER
        if running:
            self.read = left, at

    def _too_low(self, left: int, at: int) -> bool:
        """Whether a clock would have run faster than time since it was read last, or since the start."""
        if self.read is None:
            return left <= LAST_S and at - self.opening <= YOUNG_MS
        before, when = self.read
        return left < before - (at - when) / 1000 - AHEAD_S

    def _close(self, sure: float, at: int) -> None:
        if self.over < DOUBTED:
            self.since = at
        self.over = 1 - (1 - self.over) * (1 - sure)


def _taken_back(claim: Claim) -> bool:
    """Whether a claim says that what would have ended the bout was not given or is no longer."""
    return chance(claim, "denied") > DENIED and (claim.concept in ENDS or claim.of == TAKEN_BACK)
