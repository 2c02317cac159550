"""One pass over a bout's claims that brings those about one thing together."""

from collections.abc import Iterable

from hikite.ledger.activities import ActivityClock
from hikite.ledger.callings import Callings
from hikite.ledger.courses import OPENING, Course, opening_of
from hikite.ledger.deeds import Matter, chance
from hikite.ledger.doings import Doings
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim
from hikite.records.marks import BRINK, TAKEN_BACK

OVER, LONG_OVER, ON = 0.6, 0.5, 0.9
"""A score told where less than this is left of the chance that the bout is on is told after its end, and a
result where less than that is left: the first words after an end are often of it. Nor is a clock read then
one that runs, unless as much as the last is left."""
# How what does not happen at that moment is meant.
_TALKED_OF = frozenset({"recalled", "supposed", "described", "threatened"})
SLIP = 0.5
"""A stated score more surely denied than this was a slip."""


def gather(claims: Iterable[tuple[int, Claim]], rules: Ruleset) -> Matter:
    """The matter of one bout's claims (with their indexes in the testimony)."""
    claims = tuple(claims)
    course = Course(rules, opening_of([claim for _, claim in claims[:OPENING]]))
    gathering = _Gathering(rules)
    for number, claim in claims:
        live = 1.0 if claim.vouched else course.live(claim.start_ms)
        gathering.going(number, claim, live - course.just_called(claim))
        course.hear(claim)
        gathering.take(number, claim, live)
    return gathering.matter()


class _Gathering:
    def __init__(self, rules: Ruleset) -> None:
        self.doings, self.callings, self.activity = Doings(rules), Callings(rules), ActivityClock(rules)
        self.statements: list[int] = []
        self.stated: list[tuple[int, int]] = []
        self.verdicts: list[int] = []
        self.late: set[int] = set()
        self.alive: list[int] = []
        self.brinks: list[int] = []

    def matter(self) -> Matter:
        return Matter(
            tuple(self.doings.deeds),
            tuple(self.callings.calls),
            tuple(self.callings.denials),
            tuple(self.statements),
            tuple(self.verdicts),
            frozenset(self.late),
            tuple(self.alive),
            tuple(self.brinks),
        )

    def going(self, number: int, claim: Claim, on: float) -> None:
        """Take in a claim that says the bout goes on, where the chance ``on`` that it does is good."""
        if on >= ON and _goes_on(claim):
            self.alive.append(number)

    def take(self, number: int, claim: Claim, live: float) -> None:
        """Take in one claim; ``live`` is what is left of the chance that it tells of now."""
        self._run_out(claim.start_ms)
        self.doings.landings.settle(claim.start_ms)
        if _played(claim) and live > ON:
            self.doings.played_ms = claim.start_ms
        match claim.kind:
            case "technique":
                self.callings.fresh |= self.doings.technique(number, claim, live)
            case "hold":
                self.callings.fresh |= self.doings.hold(number, claim, live)
            case "position":
                self.doings.out(number, claim, live)
            case "stoppage":
                self.callings.fresh |= self.doings.challenge(number, claim, live)
            case "landing" if claim.status == "stated":
                self.doings.landings.hear(number, claim)
            case "penalty" if claim.of == BRINK:
                self.brinks.append(number)
            case "penalty" if claim.of == TAKEN_BACK:
                self.callings.penalty_back(number, claim, self.doings.ladders.get(claim.concept))
            case "penalty":
                self.callings.fresh |= self.doings.penalty(number, claim, live)
                if self.doings.deeds and number in self.doings.deeds[-1].claims:
                    self.activity.called(self.doings.deeds[-1])
            case "clock":
                self.callings.fresh |= self.doings.clock(number, claim, live)
                self.activity.clock(number, claim)
            case "score":
                self.callings.hold = self.doings.holding(claim.start_ms)
                if self.callings.score(number, claim, live, self.doings.acted_ms):
                    self.doings.nothing(claim)
                elif self.callings.calls and self.callings.calls[-1].claims[-1] == number:
                    self.activity.scored(self.callings.calls[-1])
            case "stated_score" if chance(claim, "denied") > SLIP:
                self._taken_back(claim)
            case "stated_score":
                self._told(self.statements, number, live < OVER)
                self.callings.fresh = True
                self.stated.append((claim.start_ms, number))
            case "result":
                self._told(self.verdicts, number, live < LONG_OVER)
                self.callings.hold = self.doings.holding(claim.start_ms)
                self.callings.result(number, claim, live)

    def _run_out(self, at: int) -> None:
        """The activity clock may have run out before a moment, with nobody saying so."""
        deed = self.activity.run_out(at)
        if deed is not None:
            self.doings.deeds.append(deed)
            self.callings.fresh = True

    def _taken_back(self, claim: Claim) -> None:
        """A stated score taken back, and with it those stated since the award before it."""
        called = self.callings.slip(claim)
        if called is not None:
            slips = {number for at, number in self.stated if at >= called}
            self.statements = [number for number in self.statements if number not in slips]

    def _told(self, of: list[int], number: int, late: bool) -> None:
        of.append(number)
        if late:
            self.late.add(number)


def _played(claim: Claim) -> bool:
    """Whether a claim is of the bout itself while it goes on: it has been started again, somebody acts."""
    if claim.kind == "stoppage":
        return claim.concept in ("start", "restart")
    return claim.kind in ("technique", "grip", "hold", "score") and claim.status not in _TALKED_OF


def _goes_on(claim: Claim) -> bool:
    """Whether a claim says that the bout is on: a restart, or time left on its clock."""
    if claim.kind == "stoppage":
        return claim.concept == "restart" and claim.of is None
    on = claim.kind == "clock" and claim.status == "stated" and claim.of in (None, "period", "bout")
    return on and bool(claim.seconds) and not claim.elapsed
