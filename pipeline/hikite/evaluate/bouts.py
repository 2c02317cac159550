"""The inferred ledger against the true one: counted events, final score, result and clock."""

from collections.abc import Sequence

from pydantic import BaseModel

from hikite.evaluate.calibrations import Guess
from hikite.evaluate.golds import Final, Gold, Row, Truth
from hikite.evaluate.matches import NEAR_S, pair
from hikite.records import Bout, Clock, Event, Ledger, Result, Tally

COUNTED_NEAR_S = 5.0
"""A counted event is right when it lies within this many seconds of the labelled line."""

CLOCK_SLACK_S = 1.0
"""A speaker reads whole seconds off the clock."""

OTHER_CLOCKS = ("activity", "break", "submission-attempt")
"""Clocks that are not the match clock."""


class LedgerFigures(BaseModel, frozen=True):
    """Counts over the bouts of one recording; ``clock_errors`` are absolute, in seconds."""

    bouts: int = 0
    rows: int = 0
    counted: int = 0
    matched: int = 0
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
    costs = {}
    for r, row in enumerate(gold.rows):
        low, high = _window(gold, row)
        for e, event in enumerate(events):
            if _same_worth(event, row) and event.start_ms / 1000 <= high and event.end_ms / 1000 >= low:
                costs[r, e] = abs(event.start_ms / 1000 - row.start_s)
    pairs = pair(costs)
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
        guesses=tuple(
            Guess(about="counted event", probability=event.confidence, right=e in taken)
            for e, event in enumerate(events)
        ),
        problems=(*missed, *spurious),
    )


def _same_worth(event: Event, row: Row) -> bool:
    worth = event.score_class == row.score if row.score else event.points == row.points
    return worth and event.side == row.side


def _window(gold: Gold, row: Row) -> tuple[float, float]:
    """When the row's event may lie: about its line, or up to the statement that first reveals it."""
    spoken = [
        truth
        for truth in gold.truths
        if truth.kind in ("score", "penalty")
        and truth.status == "given"
        and abs(truth.line - row.line) <= 1
        and _awards(truth, row)
    ]
    low, high = row.start_s - COUNTED_NEAR_S, row.end_s + COUNTED_NEAR_S
    if spoken:
        return low, high
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
    clocks = [t for t in gold.truths if _asks_clock(t) and t.bout == number + 1]
    if bout is None:
        return LedgerFigures(clocks=len(clocks), problems=(f"bout {number + 1}: not found",))
    exact = final_exact(bout.final, final)
    won = bout.result.winner == final.winner
    right = won and bout.result.by in _endings(gold, number)
    guess = Guess(about="final score", probability=bout.final_confidence, right=exact)
    bounds = [_bounds(bout, truth) for truth in clocks]
    errors, widths, held = _clock_errors(gold, number, clocks, bounds)
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


def _asks_clock(truth: Truth) -> bool:
    meant = truth.status in (None, "stated") and not truth.misspoken and not truth.approx
    return truth.kind == "clock" and truth.seconds is not None and meant and truth.of not in OTHER_CLOCKS


def _bounds(bout: Bout, truth: Truth) -> Clock | None:
    """The clock of the bout at the truth's moment: of an event there, else between its neighbours."""
    clocked = [(event.start_ms / 1000, event.clock) for event in bout.events if event.clock is not None]
    here = [(abs(at - truth.start_s), at, clock) for at, clock in clocked if _near(at, truth)]
    if here:
        return min(here, key=lambda one: one[:2])[2]
    before = [clock for at, clock in clocked if at < truth.start_s]
    after = [clock for at, clock in clocked if at > truth.end_s]
    if not before or not after or before[-1].golden != after[0].golden:
        return None
    low, high = sorted((after[0].low_s, before[-1].high_s))
    return Clock(low_s=low, high_s=high, best_s=(low + high) / 2, golden=before[-1].golden)


def _near(at: float, truth: Truth) -> bool:
    return truth.start_s - NEAR_S <= at <= truth.end_s + NEAR_S


def _clock_errors(
    gold: Gold, number: int, clocks: Sequence[Truth], bounds: Sequence[Clock | None]
) -> tuple[tuple[float, ...], tuple[float, ...], int]:
    """Absolute errors and widths (s) of the clocks that were told, and how many truths they bound."""
    errors, widths, held = [], [], 0
    for truth, clock in zip(clocks, bounds, strict=True):
        if clock is None:
            continue
        true, golden = _true_clock(gold, number, truth)
        inside = clock.low_s - CLOCK_SLACK_S <= true <= clock.high_s + CLOCK_SLACK_S
        held += inside and clock.golden == golden
        errors.append(abs(clock.best_s - true))
        widths.append(clock.high_s - clock.low_s)
    return tuple(errors), tuple(widths), held


def _true_clock(gold: Gold, number: int, truth: Truth) -> tuple[float, bool]:
    """Seconds remaining as labelled (in golden score: elapsed), and whether it is golden score."""
    sheet = gold.sheets[min(number, len(gold.sheets) - 1)]
    ruleset, seconds = sheet.ruleset or "", float(truth.seconds or 0)
    length = float(sheet.duration_s or 240)
    if truth.of == "golden-score":
        return seconds, True
    if truth.clock != "elapsed":
        return seconds, False
    if ruleset.startswith("judo") and seconds > length:
        return seconds - length, True
    return (length / 2 if truth.of == "period" else length) - seconds, False
