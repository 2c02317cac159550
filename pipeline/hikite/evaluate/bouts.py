"""The inferred ledger against the true one: counted events, final score, result and clock."""

from collections.abc import Sequence

from pydantic import BaseModel

from hikite.evaluate.calibrations import Guess
from hikite.evaluate.clocks import asks_clock, clock_errors
from hikite.evaluate.golds import Final, Gold, Row, Truth
from hikite.evaluate.matches import pair, said_at
from hikite.records import Bout, Event, Ledger, Result, Tally

COUNTED_NEAR_S = 5.0
"""A counted event is right when it lies within this many seconds of the labelled line."""

AWARD_LINES = 3
"""The points of a row may be given up to so many lines after it."""


class LedgerFigures(BaseModel, frozen=True):
    """Counts over the bouts of one recording; ``clock_errors`` are absolute, in seconds.

    ``matched`` events lie about their row or its award, ``matched_near`` about the row's own line.
    """

    bouts: int = 0
    rows: int = 0
    counted: int = 0
    matched: int = 0
    matched_near: int = 0
    finals: int = 0
    winners: int = 0
    results: int = 0
    clocks: int = 0
    clocks_bound: int = 0
    clock_errors: tuple[float, ...] = ()
    clock_widths: tuple[float, ...] = ()
    guesses: tuple[Guess, ...] = ()
    problems: tuple[str, ...] = ()

    @property
    def f1(self) -> float:
        """F1 of the counted events."""
        return 2 * self.matched / (self.rows + self.counted) if self.rows + self.counted else 1.0


def evaluate_ledger(ledger: Ledger, gold: Gold) -> LedgerFigures:
    """The inferred bouts of one recording against the labelled ones, paired by the time they share."""
    spans = [_span(gold, number + 1) for number in range(len(gold.finals))]
    costs = {
        (number, index): -shared
        for number, (start, end) in enumerate(spans)
        for index, bout in enumerate(ledger.bouts)
        if (shared := min(end, bout.end_ms / 1000) - max(start, bout.start_ms / 1000)) > 0
    }
    pairs = pair(costs)
    counted = _counted(ledger, gold)
    found = [_one_bout(gold, n, ledger.bouts[pairs[n]] if n in pairs else None) for n in range(len(spans))]
    return counted.model_copy(
        update={
            "bouts": len(spans),
            **{
                name: sum(getattr(one, name) for one in found)
                for name in ("finals", "winners", "results", "clocks", "clocks_bound")
            },
            **{
                name: sum((getattr(one, name) for one in (counted, *found)), ())
                for name in ("clock_errors", "clock_widths", "guesses", "problems")
            },
        }
    )


def _span(gold: Gold, bout: int) -> tuple[float, float]:
    """From the first to the last labelled second of one bout."""
    truths = [(one.start_s, one.end_s) for one in gold.truths if one.bout == bout]
    mine = truths + [(one.start_s, one.end_s) for one in gold.rows if one.bout == bout]
    return min((start for start, _ in mine), default=0.0), max((end for _, end in mine), default=0.0)


def _counted(ledger: Ledger, gold: Gold) -> LedgerFigures:
    events = [event for bout in ledger.bouts for event in bout.events if event.counts]
    pairs = _pairs(events, gold, AWARD_LINES)
    taken = set(pairs.values())
    missed = [
        f"{row.start_s:.1f} s: not counted: {row.side} {row.score or row.points} ({row.why})"
        for r, row in enumerate(gold.rows)
        if r not in pairs
    ]
    spurious = [
        f"{event.start_ms / 1000:.1f} s: wrongly counted: {event.side} {event.score_class or event.points} "
        f"({event.concept}{', unspoken' if event.unspoken else ''}, {event.confidence:.2f})"
        for e, event in enumerate(events)
        if e not in taken
    ]
    return LedgerFigures(
        rows=len(gold.rows),
        counted=len(events),
        matched=len(pairs),
        matched_near=len(_pairs(events, gold, 0)),
        guesses=tuple(
            Guess(about="counted event", probability=event.confidence, right=e in taken)
            for e, event in enumerate(events)
        ),
        problems=(*missed, *spurious),
    )


def _pairs(events: Sequence[Event], gold: Gold, award_lines: int) -> dict[int, int]:
    """Row index to event index, one to one; an award may follow its row by so many lines."""
    costs = {}
    for r, row in enumerate(gold.rows):
        low, high = _window(gold, row, award_lines)
        for e, event in enumerate(events):
            if _same_worth(event, row) and event.start_ms / 1000 <= high and event.end_ms / 1000 >= low:
                costs[r, e] = abs(event.start_ms / 1000 - row.start_s)
    return pair(costs)


def _same_worth(event: Event, row: Row) -> bool:
    worth = event.score_class == row.score if row.score else event.points == row.points
    return worth and event.side == row.side


def _window(gold: Gold, row: Row, award_lines: int) -> tuple[float, float]:
    """When the row's event may lie: about its line and its award's, or up to the statement revealing it.

    Some annotators put a row where the throw lands, others where the points are given.
    """
    spoken = [
        truth
        for truth in gold.truths
        if truth.kind in ("score", "penalty")
        and truth.status == "given"
        and -1 <= truth.line - row.line <= max(award_lines, 1)
        and _awards(truth, row)
    ]
    low, high = row.start_s - COUNTED_NEAR_S, row.end_s + COUNTED_NEAR_S
    if spoken:
        award = min(spoken, key=lambda truth: abs(truth.line - row.line))
        return low, max(high, award.end_s + COUNTED_NEAR_S) if award_lines else high
    statements = [t for t in gold.truths if t.kind == "stated_score" and t.bout == row.bout]
    before = [t.start_s for t in statements if t.line < row.line]
    after = [t.end_s for t in statements if t.line >= row.line]
    return min(low, max(before, default=low)), max(high, min(after, default=high))


def _awards(truth: Truth, row: Row) -> bool:
    """Whether a labelled award or fault is this row spoken."""
    if row.score:
        return truth.side == row.side and row.score in (truth.score, truth.concept)
    if truth.kind == "penalty":
        return truth.points == row.points and truth.side != row.side
    return truth.side == row.side and truth.points == row.points


def _one_bout(gold: Gold, number: int, bout: Bout | None) -> LedgerFigures:
    """One bout's final score, result and clock; a bout not found has none of them right."""
    final = gold.finals[number]
    sheet = gold.sheets[min(number, len(gold.sheets) - 1)]
    clocks = [(said_at(gold, t), t) for t in gold.truths if t.bout == number + 1 and asks_clock(t, sheet)]
    if bout is None:
        return LedgerFigures(clocks=len(clocks), problems=(f"bout {number + 1}: not found",))
    exact = final_exact(bout.final, final)
    won = bout.result.winner == final.winner
    right = won and bout.result.by in _endings(gold, number)
    guess = Guess(about="final score", probability=bout.final_confidence, right=exact)
    errors, widths, held = clock_errors(bout, sheet, clocks)
    return LedgerFigures(
        finals=int(exact),
        winners=int(won),
        results=int(right),
        clocks=len(clocks),
        clocks_bound=held,
        clock_errors=errors,
        clock_widths=widths,
        guesses=(guess,),
        problems=_bout_problems(bout.final, bout.result, final, exact, right),
    )


def _bout_problems(
    told: dict[str, Tally], result: Result, final: Final, exact: bool, right: bool
) -> tuple[str, ...]:
    found = []
    if not exact:
        found.append(f"final {_shown(told)}, truly {_shown(final.tallies)}")
    if not right:
        found.append(f"result {result.winner} by {result.by}, truly {final.winner} by {final.by}")
    return tuple(found)


def _shown(tallies: dict[str, Tally]) -> str:
    return ", ".join(
        f"{side} {tally.model_dump(exclude_none=True)}" for side, tally in sorted(tallies.items())
    )


def final_exact(told: dict[str, Tally], final: Final) -> bool:
    """Whether both sides' totals are the true ones; a total not told is nought."""
    empty = Tally()
    return all(
        all((getattr(told.get(side, empty), key) or 0) == (count or 0) for key, count in tally)
        for side, tally in final.tallies.items()
    )


def _endings(gold: Gold, number: int) -> set[str | None]:
    """Every name the labels give to how the bout ended."""
    given = [t for t in gold.truths if t.kind == "result" and t.status == "given" and t.bout == number + 1]
    mine = [t for t in given if t.side == gold.finals[number].winner]
    return {gold.finals[number].by, *(name for t in mine for name in (t.concept, *t.accept))}
