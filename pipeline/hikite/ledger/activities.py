"""The seconds that a passive wrestler has to score: what runs out unsaid pays the other side."""

from hikite.ledger.deeds import Call, Deed, agree
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim

ACTIVITY, PASSIVE = "activity", "passivity"
"""The clock that runs against a passive wrestler, with the award for letting it run out; what starts it."""
ACTIVITY_S, STARTED_MS, SLACK_MS = 30, 15_000, 2_000
"""How long it runs (UWW, WP-05); how far apart the call and the clock are named at most, and how roughly.
The last two are common practice, no source."""
RUNS_OUT, GIVEN = 0.7, 0.5
"""P(it ran out with no score of the passive side | nothing was said to stop it), and how surely an award is
given that stops it. Common practice, no source."""


class ActivityClock:
    """The activity clock of one bout while its claims are taken in, where the rules have one."""

    def __init__(self, rules: Ruleset) -> None:
        self.known = any(award.name == ACTIVITY for award in rules.awards)
        self.passive: Deed | None = None
        self.started: tuple[int, int] | None = None
        self.running = False

    def called(self, deed: Deed) -> None:
        """A passivity called: the clock just named runs against it."""
        if not self.known or deed.concept != PASSIVE or deed.done < 0.5:
            return
        self.running = self.started is not None and deed.start_ms - self.started[1] <= STARTED_MS
        self.passive = deed

    def clock(self, number: int, claim: Claim) -> None:
        """A clock read: that of activity runs from now on; read as run out, it has spoken for itself."""
        named = claim.of == ACTIVITY and claim.seconds is not None
        if not self.known or claim.elapsed or not (named or claim.seconds == ACTIVITY_S):
            return
        seconds = claim.seconds or 0
        if not seconds:
            self.stop()
        elif seconds <= ACTIVITY_S and claim.status == "stated":
            self.started = number, claim.start_ms - 1000 * (ACTIVITY_S - seconds)
            self.running = self.passive is not None and claim.start_ms - self.passive.end_ms <= STARTED_MS

    def scored(self, call: Call) -> None:
        """Points called: those of the passive side stop the clock, a single one of the other is its own."""
        if not self.running or self.passive is None or max(call.given) < GIVEN:
            return
        if call.value == 1 or agree(call.sides, self.passive.sides) > 0.5:
            self.stop()

    def stop(self) -> None:
        """Nothing runs any more."""
        self.running, self.started = False, None

    def run_out(self, at: int) -> Deed | None:
        """The clock run out by now, if it ran, with nobody saying so."""
        if not self.running or self.passive is None or self.started is None:
            return None
        number, began = self.started
        over = began + 1000 * ACTIVITY_S
        if at < over - SLACK_MS:
            return None
        self.stop()
        sides = self.passive.sides[::-1]
        return Deed("technique", ACTIVITY, (number,), sides, RUNS_OUT, over - SLACK_MS, over)
