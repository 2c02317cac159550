"""The lines of the score as events: what counted, when, for what, by which row, and how sure it is."""

from typing import NamedTuple

from hikite.ledger.clocks import Clocks
from hikite.ledger.deeds import Call, Deed
from hikite.ledger.reckonings import Reckoning
from hikite.ledger.rows import concept_and_row, ladder_of, rung_row
from hikite.ledger.scorings import Scoring, scoreboard
from hikite.ledger.worths import Scales
from hikite.records import Candidate, Claim, Event, Otherwise, Reason, Tally

PAID_MS = 8_000
"""Points nobody called are given so soon after what they are for. Common practice, no source."""

Line = tuple[Event, tuple[int, ...]]
"""An event of the score, with the claims that need no event of their own besides."""


class _Ground(NamedTuple):
    """What a line of the score is for and rests on, where awards and counted penalties differ."""

    kind: str
    concept: str
    time: tuple[int, int]
    points: int | None
    score_class: str | None
    row: str | None
    unspoken: bool
    claims: tuple[int, ...]
    told: tuple[int, ...]
    alternatives: tuple[Candidate, ...]
    reasons: tuple[Reason, ...]


class Lines:
    """Makes the lines of one bout's score from its best path."""

    def __init__(
        self,
        claims: dict[int, Claim],
        reckoning: Reckoning,
        scales: Scales,
        clocks: Clocks,
        scorings: list[Scoring],
    ) -> None:
        self.claims, self.reckoning, self.scales, self.clocks = claims, reckoning, scales, clocks
        self.rules, self.matter = scales.rules, reckoning.matter
        # By deed the step that paid it first: what did not take its place after all was for something else.
        self.payers: dict[int, int] = {}
        for scoring in scorings:
            deed = self.matter.calls[scoring.about].deed if scoring.source == "call" else None
            if deed is not None:
                self.payers.setdefault(deed, scoring.step)

    def line(self, scoring: Scoring) -> Line:
        """One line of the score."""
        call, deed = self.source(scoring)
        counted = scoring.penalty and ladder_of(self.rules, scoring.penalty).counted
        ground = self._penalty(scoring, deed) if counted else self._award(scoring, call, deed)
        start, end = ground.time
        event = Event(
            start_ms=start,
            end_ms=end,
            kind=ground.kind,
            concept=ground.concept,
            status="given",
            side=self.rules.sides[scoring.side],
            alternatives=ground.alternatives,
            counts=True,
            points=ground.points,
            score_class=ground.score_class,
            score_after=self.board(scoring.state),
            clock=self.clocks.at(start),
            row=ground.row,
            unspoken=ground.unspoken,
            claims=ground.claims,
            confidence=min(1.0, scoring.sure),
            side_confidence=min(1.0, scoring.side_sure),
            value_confidence=scoring.value_sure,
            score_confidence=round(min(1.0, self.reckoning.solved.boards[scoring.step]), 4),
            otherwise=self._otherwise(scoring),
            reasons=ground.reasons,
        )
        return event, ground.told

    def source(self, scoring: Scoring) -> tuple[Call | None, Deed | None]:
        """The call and the deed that a line of the score goes back to, as far as there are any."""
        if scoring.source == "call":
            call = self.matter.calls[scoring.about]
            first = call.deed is not None and self.payers.get(call.deed, scoring.step) == scoring.step
            return call, self.matter.deeds[call.deed] if call.deed is not None and first else None
        return None, self.matter.deeds[scoring.about] if scoring.source == "deed" else None

    def time(self, scoring: Scoring) -> tuple[int, int]:
        """When a line of the score was given: as called, after its deed, or in the silence it lies in."""
        call, deed = self.source(scoring)
        if call is not None:
            first = self.claims[_own_claims(scoring, call)[0]]
            return first.start_ms, first.end_ms
        if deed is not None:
            last = self.claims[deed.claims[-1]]
            return max(last.start_ms, deed.start_ms), max(last.end_ms, self._paid_by(deed))
        at = self.reckoning.steps.steps[scoring.step].at_ms
        before = max((claim.end_ms for claim in self.claims.values() if claim.end_ms <= at), default=0)
        starts = (claim.start_ms for claim in self.claims.values())
        after = min((start for start in starts if start >= at), default=before)
        return before, max(before, min(at, after))

    def board(self, state: int) -> dict[str, Tally]:
        """What the scoreboard shows in a state, by side."""
        return scoreboard(self.reckoning.grid, state, self.rules.sides)

    def _award(self, scoring: Scoring, call: Call | None, deed: Deed | None) -> _Ground:
        called, done = _own_claims(scoring, call) if call else (), deed.claims if deed else ()
        told = tuple(number for number in called if self.claims[number].kind == "score")
        concept, row = concept_and_row(self.scales, scoring, deed)
        value, why = scoring.value, Reason(name=_why(scoring, call, deed), weight=round(scoring.sure, 3))
        return _Ground(
            kind="score",
            concept=concept,
            time=self.time(scoring),
            points=value if isinstance(value, int) else None,
            score_class=None if isinstance(value, int) else value,
            row=row,
            unspoken=call is None,
            claims=(*called, *done),
            told=told,
            alternatives=self.claims[done[-1]].alternatives if done else (),
            reasons=(*(self.claims[told[0]].reasons if told else ()), why),
        )

    def _penalty(self, scoring: Scoring, deed: Deed | None) -> _Ground:
        """A penalty that is a line of the score itself; it stands where it was first called."""
        first, ladder = self.claims[deed.claims[0]] if deed else None, str(scoring.penalty)
        claims = deed.claims if deed else ()
        return _Ground(
            kind="penalty",
            concept=first.concept if first else ladder,
            time=(first.start_ms, first.end_ms) if first else self.time(scoring),
            points=None,
            score_class=ladder,
            row=rung_row(self.rules, ladder, scoring.rung),
            unspoken=deed is None,
            claims=claims,
            told=claims,
            alternatives=(),
            reasons=first.reasons if first else (),
        )

    def _paid_by(self, deed: Deed) -> int:
        """By when what nobody called was given: before the next deed or stated score, soon after its own."""
        later = [other.start_ms for other in self.matter.deeds if other.start_ms > deed.end_ms]
        later += [start for n in self.matter.statements if (start := self.claims[n].start_ms) > deed.end_ms]
        return min([*later, deed.end_ms + PAID_MS])

    def _otherwise(self, scoring: Scoring) -> tuple[Otherwise, ...]:
        """What a line of the score may have been instead."""
        found = []
        for move, chance in scoring.others:
            points = move.value if move is not None and isinstance(move.value, int) else None
            name = move.value if move is not None and isinstance(move.value, str) else None
            side = None if move is None else self.rules.sides[move.side]
            found.append(Otherwise(side=side, points=points, score_class=name, probability=round(chance, 4)))
        return tuple(found)


def _own_claims(scoring: Scoring, call: Call) -> tuple[int, ...]:
    """The claims of a call that tell of this line: of "that's two … two more" each has its own."""
    if scoring.of == 1 or len(call.claims) < scoring.of:
        return call.claims
    last = scoring.nth + 1 == scoring.of
    return call.claims[scoring.nth : None if last else scoring.nth + 1]


def _why(scoring: Scoring, call: Call | None, deed: Deed | None) -> str:
    """In words, what makes a line of the score."""
    if scoring.penalty:
        return f"rung {scoring.rung + 1} of the {scoring.penalty} ladder"
    if call is not None:
        return "award called" if deed is None else f"award called for {deed.concept}"
    if deed is not None:
        return f"{deed.concept} completed; its points follow from the rules or a later score"
    return "proved by a later stated score"
