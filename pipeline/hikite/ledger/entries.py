"""The events of a bout: one for each claim, or for several that tell of one thing, and the score's lines."""

from bisect import bisect_right

from hikite.ledger.clocks import Clocks
from hikite.ledger.lines import Lines
from hikite.ledger.reckonings import Reckoning
from hikite.ledger.scorings import Scoring
from hikite.ledger.verdicts import BY_LEAD, OUT_BY
from hikite.ledger.worths import Scales
from hikite.records import Claim, Event, Reason, Result, Tally

UNTOLD_HOW, PUT_OUT = "points", "disqualification"
"""A result of which only the winner is told, and what a win by penalties is called."""
WON = frozenset({"given", "recalled"})


class Entries:
    """Builds the events of one bout from its claims and its best path."""

    def __init__(
        self,
        claims: dict[int, Claim],
        reckoning: Reckoning,
        scorings: list[Scoring],
        scales: Scales,
        clocks: Clocks,
        result: Result | None = None,
    ) -> None:
        self.claims, self.reckoning, self.scorings = claims, reckoning, scorings
        self.result = result
        self.clocks, self.rules = clocks, scales.rules
        self.lines = Lines(claims, reckoning, scales, clocks, scorings)
        self.told = [step.at_ms for step in reckoning.steps.steps]
        self.paid = self._paid()

    def build(self) -> tuple[Event, ...]:
        """All events in time order."""
        lines = [self.lines.line(scoring) for scoring in self.scorings]
        lines += [(event, ()) for event in self._carried_in()]
        used = {number for event, taken in lines for number in taken}
        events = [event for event, _ in lines]
        events += [self._plain(number, claim) for number, claim in self.claims.items() if number not in used]
        return tuple(sorted(events, key=lambda event: (event.start_ms, event.end_ms)))

    def _paid(self) -> dict[int, Scoring]:
        """By claim, the line of the score that was paid for what it tells of."""
        paid = {}
        for scoring in self.scorings:
            _, deed = self.lines.source(scoring)
            if deed is not None and not scoring.penalty:
                paid.update(dict.fromkeys(deed.claims, scoring))
        return paid

    def _carried_in(self) -> list[Event]:
        """The score a recording begins with, where it begins midway."""
        shown = self.lines.board(self.reckoning.solved.start)
        at = min((claim.start_ms for claim in self.claims.values()), default=0)
        return [
            Event(
                start_ms=at,
                end_ms=at,
                kind="score",
                concept="points",
                status="given",
                side=side,
                counts=True,
                points=tally.points,
                score_after=shown,
                clock=self.clocks.at(at),
                unspoken=True,
                confidence=self.reckoning.final_chance(),
                reasons=(Reason(name="scored before the recording begins"),),
            )
            for side, tally in shown.items()
            if tally.points
        ]

    def _plain(self, number: int, claim: Claim) -> Event:
        """The event of a claim that is no line of the score."""
        event = Event(
            start_ms=claim.start_ms,
            end_ms=claim.end_ms,
            kind=claim.kind,
            concept=claim.concept,
            status=claim.status,
            side=claim.side,
            alternatives=claim.alternatives,
            generic=claim.generic,
            attributes=claim.attributes,
            points=claim.points,
            score_class=claim.score_class,
            stated=claim.tallies,
            seconds=claim.seconds,
            elapsed=claim.elapsed,
            of=claim.of,
            fell=claim.fell,
            counters=claim.counters,
            after=claim.after,
            repeats=claim.repeats,
            score_after=self._score_at(claim.end_ms),
            clock=self.clocks.at(claim.start_ms),
            claims=(number,),
            confidence=claim.confidence,
            side_confidence=claim.sides.get(claim.side, 1.0) if claim.side else 1.0,
            status_confidence=claim.statuses.get(claim.status, 1.0),
            reasons=claim.reasons,
        )
        learnt = self._uncounted(claim) or self._settled(number, claim) or self._won(claim)
        return event.model_copy(update=learnt) if learnt else event

    def _uncounted(self, claim: Claim) -> dict[str, object]:
        """What the score tells of an award that it leaves out: perhaps it was told before."""
        if claim.kind != "score" or claim.status != "given":
            return {}
        status = "recalled" if self._told_before(claim) else "given"
        return {
            "status": status,
            "reasons": (*claim.reasons, Reason(name="not counted by the most probable bout")),
        }

    def _settled(self, number: int, claim: Claim) -> dict[str, object]:
        """What the score tells of a claim: whose it was that scored, and that it came off."""
        scoring = self.paid.get(number)
        if scoring is None or claim.vouched or claim.kind not in ("technique", "hold", "landing"):
            return {}
        side = self.rules.sides[scoring.side if claim.kind != "landing" else 1 - scoring.side]
        reasons = (*claim.reasons, Reason(name="it was paid for", weight=round(scoring.sure, 3)))
        settled: dict[str, object] = {"side": side, "side_confidence": min(1.0, scoring.side_sure)}
        if claim.kind == "technique" and claim.status in ("attempted", "failed", "threatened"):
            settled |= {"status": "completed", "status_confidence": min(1.0, scoring.sure)}
        return settled | {"reasons": reasons}

    def _won(self, claim: Claim) -> dict[str, object]:
        """How a win told without it was won ("she goes through"), where the bout ended before time."""
        result = self.result
        if claim.kind != "result" or claim.concept != UNTOLD_HOW or claim.status not in WON or claim.vouched:
            return {}
        if result is None or result.by is None or result.by in BY_LEAD or claim.side != result.winner:
            return {}
        by = PUT_OUT if result.by in OUT_BY else result.by
        return {"concept": by, "reasons": (*claim.reasons, Reason(name="how the bout ended"))}

    def _told_before(self, claim: Claim) -> bool:
        value = claim.points if self.rules.by_points else claim.score_class
        return any(s.value == value and self.lines.time(s)[0] <= claim.start_ms for s in self.scorings)

    def _score_at(self, at: int) -> dict[str, Tally]:
        steps = bisect_right(self.told, at)
        return self.lines.board(
            self.reckoning.solved.path[steps - 1][1] if steps else self.reckoning.solved.start
        )
