"""The events of a bout: one for each claim, or for several that tell of one thing, and the score's lines."""

from bisect import bisect_right

from hikite.ledger.clocks import Clocks
from hikite.ledger.deeds import Call, Deed
from hikite.ledger.reckonings import Reckoning
from hikite.ledger.rulebooks import Gives, Ladder
from hikite.ledger.scorings import Scoring, scoreboard
from hikite.ledger.worths import Scales
from hikite.records import Claim, Event, Otherwise, Reason, Tally

PAID_MS = 8_000
"""Points nobody called are given so soon after what they are for. Common practice, no source."""
TOLD = ("given", "completed", "stated")


class Entries:
    """Builds the events of one bout from its claims and its best path."""

    def __init__(
        self,
        claims: dict[int, Claim],
        reckoning: Reckoning,
        scorings: list[Scoring],
        scales: Scales,
        clocks: Clocks,
    ) -> None:
        self.claims, self.reckoning, self.scorings, self.scales = claims, reckoning, scorings, scales
        self.clocks, self.rules = clocks, scales.rules
        self.matter, self.grid = reckoning.matter, reckoning.grid
        self.told = [step.at_ms for step in reckoning.steps.steps]
        self.paid = self._paid()

    def build(self) -> tuple[Event, ...]:
        """All events in time order."""
        lines = [self._line(scoring) for scoring in self.scorings]
        lines += [(event, ()) for event in self._carried_in()]
        used = {number for event, taken in lines for number in taken}
        events = [event for event, _ in lines]
        events += [self._plain(number, claim) for number, claim in self.claims.items() if number not in used]
        return tuple(sorted(events, key=lambda event: (event.start_ms, event.end_ms)))

    def _paid(self) -> dict[int, Scoring]:
        """By claim, the line of the score that was paid for what it tells of."""
        paid = {}
        for scoring in self.scorings:
            _, deed = self._source(scoring)
            if deed is not None and not scoring.penalty:
                paid.update(dict.fromkeys(deed.claims, scoring))
        return paid

    def _settled(self, number: int, claim: Claim) -> dict[str, object]:
        """What the score tells of a claim: whose it was that scored, and that it came off."""
        scoring = self.paid.get(number)
        if scoring is None or claim.kind not in ("technique", "hold", "landing"):
            return {}
        side = self.rules.sides[scoring.side if claim.kind != "landing" else 1 - scoring.side]
        reasons = (*claim.reasons, Reason(name="it was paid for", weight=round(scoring.sure, 3)))
        settled: dict[str, object] = {"side": side, "side_confidence": min(1.0, scoring.side_sure)}
        if claim.kind == "technique" and claim.status in ("attempted", "failed", "threatened"):
            settled |= {"status": "completed", "status_confidence": min(1.0, scoring.sure)}
        return settled | {"reasons": reasons}

    def _carried_in(self) -> list[Event]:
        """The score a recording begins with, where it begins midway."""
        shown = self._board(self.reckoning.solved.start)
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
        status, reasons = claim.status, claim.reasons
        if claim.kind == "score" and status == "given":
            status = "recalled" if self._told_before(claim) else "given"
            reasons = (*reasons, Reason(name="not counted by the most probable bout"))
        event = Event(
            start_ms=claim.start_ms,
            end_ms=claim.end_ms,
            kind=claim.kind,
            concept=claim.concept,
            status=status,
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
            reasons=reasons,
        )
        return event.model_copy(update=self._settled(number, claim))

    def _told_before(self, claim: Claim) -> bool:
        value = claim.points if self.rules.by_points else claim.score_class
        return any(s.value == value and self._time(s)[0] <= claim.start_ms for s in self.scorings)

    def _score_at(self, at: int) -> dict[str, Tally]:
        steps = bisect_right(self.told, at)
        return self._board(self.reckoning.solved.path[steps - 1][1] if steps else self.reckoning.solved.start)

    def _board(self, state: int) -> dict[str, Tally]:
        return scoreboard(self.grid, state, self.rules.sides)

    def _score_sure(self, scoring: Scoring) -> float:
        return round(min(1.0, self.reckoning.solved.boards[scoring.step]), 4)

    def _otherwise(self, scoring: Scoring) -> tuple[Otherwise, ...]:
        """What a line of the score may have been instead."""
        found = []
        for move, chance in scoring.others:
            points = move.value if move is not None and isinstance(move.value, int) else None
            name = move.value if move is not None and isinstance(move.value, str) else None
            side = None if move is None else self.rules.sides[move.side]
            found.append(Otherwise(side=side, points=points, score_class=name, probability=round(chance, 4)))
        return tuple(found)

    def _source(self, scoring: Scoring) -> tuple[Call | None, Deed | None]:
        if scoring.source == "call":
            call = self.matter.calls[scoring.about]
            return call, None if call.deed is None else self.matter.deeds[call.deed]
        return None, self.matter.deeds[scoring.about] if scoring.source == "deed" else None

    def _time(self, scoring: Scoring) -> tuple[int, int]:
        call, deed = self._source(scoring)
        if call is not None:
            first = self.claims[call.claims[0]]
            return first.start_ms, first.end_ms
        if deed is not None:
            last = self.claims[deed.claims[-1]]
            return last.start_ms, max(last.end_ms, self._paid_by(deed))
        at = self.reckoning.steps.steps[scoring.step].at_ms
        before = max((claim.end_ms for claim in self.claims.values() if claim.end_ms <= at), default=0)
        after = min(
            (claim.start_ms for claim in self.claims.values() if claim.start_ms >= at), default=before
        )
        return before, max(before, min(at, after))

    def _paid_by(self, deed: Deed) -> int:
        """By when what nobody called was given: before the next deed or stated score, soon after its own."""
        later = [other.start_ms for other in self.matter.deeds if other.start_ms > deed.end_ms]
        later += [start for n in self.matter.statements if (start := self.claims[n].start_ms) > deed.end_ms]
        return min([*later, deed.end_ms + PAID_MS])

    def _line(self, scoring: Scoring) -> tuple[Event, tuple[int, ...]]:
        """A line of the score ledger, with the claims that need no event of their own besides."""
        call, deed = self._source(scoring)
        if scoring.penalty and self._ladder(scoring.penalty).counted:
            return self._counted_penalty(scoring, deed)
        start, end = self._time(scoring)
        told = call.claims if call else ()
        told = tuple(number for number in told if self.claims[number].kind == "score")
        concept, row = self._why(scoring, deed)
        named = self.claims[deed.claims[-1]] if deed else None
        points, score_class = self._value(scoring.value)
        reasons = (Reason(name=self._reason(scoring, call, deed), weight=round(scoring.sure, 3)),)
        said = self.claims[told[0]] if told else None
        event = Event(
            start_ms=start,
            end_ms=end,
            kind="score",
            concept=concept,
            status="given",
            side=self.rules.sides[scoring.side],
            alternatives=named.alternatives if named else (),
            counts=True,
            points=points,
            score_class=score_class,
            score_after=self._board(scoring.state),
            clock=self.clocks.at(start),
            row=row,
            unspoken=call is None,
            claims=(*(call.claims if call else ()), *(deed.claims if deed else ())),
            confidence=min(1.0, scoring.sure),
            side_confidence=min(1.0, scoring.side_sure),
            value_confidence=scoring.value_sure,
            score_confidence=self._score_sure(scoring),
            otherwise=self._otherwise(scoring),
            reasons=(*(said.reasons if said else ()), *reasons),
        )
        return event, told

    def _counted_penalty(self, scoring: Scoring, deed: Deed | None) -> tuple[Event, tuple[int, ...]]:
        start, end = self._time(scoring)
        first = self.claims[deed.claims[0]] if deed else None
        if first is not None:
            start, end = first.start_ms, first.end_ms
        ladder = self._ladder(scoring.penalty or "")
        event = Event(
            start_ms=start,
            end_ms=end,
            kind="penalty",
            concept=first.concept if first else ladder.concept,
            status="given",
            side=self.rules.sides[scoring.side],
            counts=True,
            score_class=ladder.concept,
            score_after=self._board(scoring.state),
            clock=self.clocks.at(start),
            row=self._rung_row(scoring),
            unspoken=deed is None,
            claims=deed.claims if deed else (),
            confidence=min(1.0, scoring.sure),
            side_confidence=min(1.0, scoring.side_sure),
            score_confidence=self._score_sure(scoring),
            otherwise=self._otherwise(scoring),
            reasons=first.reasons if first else (),
        )
        return event, deed.claims if deed else ()

    def _ladder(self, concept: str) -> Ladder:
        return next(ladder for ladder in self.rules.ladders if ladder.concept == concept)

    def _rung_row(self, scoring: Scoring) -> str | None:
        steps = self._ladder(scoring.penalty or "").steps
        return steps[min(scoring.rung, len(steps) - 1)].id

    def _value(self, value: Gives) -> tuple[int | None, str | None]:
        return (value, None) if isinstance(value, int) else (None, value)

    def _why(self, scoring: Scoring, deed: Deed | None) -> tuple[str, str | None]:
        """The concept a score is for, and the row it rests on."""
        plain = "points" if isinstance(scoring.value, int) else scoring.value
        if scoring.penalty:
            return scoring.penalty, self._rung_row(scoring)
        if deed is None:
            return plain, self.scales.row_of(scoring.value)
        if deed.kind == "hold":
            value, row = self.scales.hold(deed.seconds)
            return deed.concept, row if value == scoring.value else self._hold_row(scoring.value)
        if deed.kind == "penalty":
            return deed.concept, self._activity_row(deed, scoring)
        worth = self.scales.technique(deed.concept, deed.landing, deed.fell)
        return deed.concept, worth.rows.get(scoring.value) or self.scales.row_of(scoring.value)

    def _hold_row(self, value: Gives) -> str | None:
        return next((hold.id for hold in self.rules.holds if hold.gives == value), None)

    def _activity_row(self, deed: Deed, scoring: Scoring) -> str | None:
        named = next((award.id for award in self.rules.awards if award.name == "activity"), None)
        return named if deed.concept == "passivity" and named else self.scales.row_of(scoring.value)

    def _reason(self, scoring: Scoring, call: Call | None, deed: Deed | None) -> str:
        if scoring.penalty:
            return f"rung {scoring.rung + 1} of the {scoring.penalty} ladder"
        if call is not None:
            return "award called" if deed is None else f"award called for {deed.concept}"
        if deed is not None:
            return f"{deed.concept} completed; its points follow from the rules or a later score"
        return "proved by a later stated score"
