"""The match clock as inferred against the clocks as labelled."""

from collections.abc import Sequence

from hikite.evaluate.golds import Truth
from hikite.evaluate.matches import NEAR_S
from hikite.records import Bout, Clock, Sheet

CLOCK_SLACK_S = 1.0
"""A speaker reads whole seconds off the clock."""

OTHER_CLOCKS = ("activity", "break", "submission-attempt")
"""Clocks that are not the match clock."""


def asks_clock(truth: Truth, sheet: Sheet) -> bool:
    """Whether a label tells the match clock, and means it; a whole bout's length is no period's clock."""
    meant = truth.status in (None, "stated") and not truth.misspoken and not truth.approx
    if truth.kind != "clock" or truth.seconds is None or not meant or truth.of in OTHER_CLOCKS:
        return False
    return truth.seconds <= _length(sheet) or not _in_periods(sheet)


def clock_errors(
    bout: Bout, sheet: Sheet, clocks: Sequence[tuple[float, Truth]]
) -> tuple[tuple[float, ...], tuple[float, ...], int]:
    """Absolute errors and widths (s) of the clocks that were told, and how many truths they bound.

    ``clocks`` are the labels with the moments (s) at which they were spoken.
    """
    errors, widths, held = [], [], 0
    for moment, truth in clocks:
        clock = _bounds(bout, moment, truth)
        if clock is None:
            continue
        true, golden = _true_clock(sheet, truth)
        inside = clock.low_s - CLOCK_SLACK_S <= true <= clock.high_s + CLOCK_SLACK_S
        held += inside and clock.golden == golden
        errors.append(abs(clock.best_s - true))
        widths.append(clock.high_s - clock.low_s)
    return tuple(errors), tuple(widths), held


def _bounds(bout: Bout, moment: float, truth: Truth) -> Clock | None:
    """The clock of the bout at the truth's moment: of an event there, else between its neighbours."""
    clocked = [(event.start_ms / 1000, event.clock) for event in bout.events if event.clock is not None]
    here = [(abs(at - moment), at, clock) for at, clock in clocked if _near(at, truth)]
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


def _true_clock(sheet: Sheet, truth: Truth) -> tuple[float, bool]:
    """Seconds remaining as labelled (in golden score: elapsed), and whether it is golden score."""
    seconds, length = float(truth.seconds or 0), _length(sheet)
    if truth.of == "golden-score":
        return seconds, True
    if truth.clock != "elapsed":
        return seconds, False
    return (seconds - length, True) if seconds > length else (length - seconds, False)


def _in_periods(sheet: Sheet) -> bool:
    return (sheet.ruleset or "").startswith("uww")


def _length(sheet: Sheet) -> float:
    """What the clock starts from, in seconds: wrestling fights two periods, judo four minutes."""
    return float(sheet.duration_s or 240) / (2 if _in_periods(sheet) else 1)
