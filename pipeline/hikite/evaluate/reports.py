"""An evaluation as Markdown: tables to compare, listings to work through."""

from collections.abc import Iterable

from hikite.evaluate.bouts import LedgerFigures
from hikite.evaluate.calibrations import Guess, brier, calibration_error, chance_error, reliability
from hikite.evaluate.figures import MENTIONS, Figure, Outcome, add
from hikite.evaluate.runs import Run

RIGHT = ("right", "vague")


def report(run: Run, against: Run | None = None, errors: bool = False) -> str:
    """The figures of a run, then gains and losses against an earlier one, then (if asked) every error."""
    sheet = "with bout sheets" if run.sheet else "from the talk alone"
    parts = [
        f"# {len(run.recordings)} recordings, {run.variant}, {sheet}",
        _kinds_table(run),
        _ledger_table(run.ledgers) if run.ledgers else "",
        calibration_table(run.guesses),
        _recordings_table(run),
    ]
    if against is not None:
        parts.append(_changes(run, against))
    if errors:
        parts.append(_errors(run))
    return "\n\n".join(part for part in parts if part) + "\n"


def _table(head: str, rows: Iterable[Iterable[object]]) -> str:
    names = [name.strip() for name in head.split("|")]
    lines = ["| " + " | ".join(names) + " |", "|" + "---|" * len(names)]
    lines += ["| " + " | ".join(map(str, row)) + " |" for row in rows]
    return "\n".join(lines)


def _share(right: int, told: int) -> str:
    return f"{right / told:.3f} ({told})" if told else "–"


def _row(name: str, one: Figure) -> tuple[str, ...]:
    shares = (_share(*one.side), _share(*one.status), _share(*one.value))
    numbers = (f"{one.precision:.3f}", f"{one.recall:.3f}", f"{one.f1:.3f}")
    return (name, *numbers, str(one.truths), str(one.heard), *shares)


def _kinds_table(run: Run) -> str:
    rows = [_row("**techniques and grips**", run.headline)]
    rows += [_row("… family words counted too", run.headline.strict)]
    rows += [_row("all mentions", add([run.kinds[kind] for kind in MENTIONS if kind in run.kinds]))]
    rows += [_row(kind, one) for kind, one in run.kinds.items() if one.truths or one.heard]
    return _table("kind|precision|recall|F1|truths|heard|side|status|value", rows)


def _ledger_table(ledgers: tuple[LedgerFigures, ...]) -> str:
    rows, counted = sum(one.rows for one in ledgers), sum(one.counted for one in ledgers)
    matched, bouts = sum(one.matched for one in ledgers), sum(one.bouts for one in ledgers)
    near, f1 = sum(one.matched_near for one in ledgers), _f1(matched, rows, counted)
    clocks = sum(one.clocks for one in ledgers)
    errors = sorted(error for one in ledgers for error in one.clock_errors)
    widths = sorted(width for one in ledgers for width in one.clock_widths)
    table = [
        (
            "counted events: F1",
            f"{f1:.3f} (precision {_share(matched, counted)}, recall {_share(matched, rows)})",
        ),
        ("… within 5 s of the row's own line: F1", f"{_f1(near, rows, counted):.3f}"),
        ("final score exact", _share(sum(one.finals for one in ledgers), bouts)),
        ("winner", _share(sum(one.winners for one in ledgers), bouts)),
        ("winner and how", _share(sum(one.results for one in ledgers), bouts)),
        ("clock within bounds", _share(sum(one.clocks_bound for one in ledgers), clocks)),
        ("clock: median error, median width of the bounds", f"{_middle(errors)} s, {_middle(widths)} s"),
    ]
    return _table("ledger|figure", table)


def _f1(matched: int, rows: int, counted: int) -> float:
    return 2 * matched / (rows + counted) if rows + counted else 1.0


def _middle(numbers: list[float]) -> str:
    return f"{numbers[len(numbers) // 2]:.1f}" if numbers else "–"


def calibration_table(guesses: tuple[Guess, ...]) -> str:
    """By what they are about: how sure the guesses were, how many were right, and how far these lie apart."""
    rows = []
    for name in sorted({guess.about for guess in guesses}):
        mine = [guess for guess in guesses if guess.about == name]
        told = sum(one.probability for one in mine) / len(mine)
        right = sum(one.right for one in mine) / len(mine)
        errors = (calibration_error(mine), chance_error(mine), brier(mine))
        tenths = " ".join(f"{one.probability:.2f}→{one.right:.2f}" for one in reliability(mine))
        rows.append((name, len(mine), *(f"{number:.3f}" for number in (told, right, *errors)), tenths))
    head = "confidence in|guesses|told|right|calibration error|by chance|Brier|told→right by tenths"
    return _table(head, rows)


def _recordings_table(run: Run) -> str:
    rows = []
    for one in run.recordings:
        figure, ledger = one.claims.headline, one.ledger
        exact = "–" if ledger is None else f"{ledger.finals}/{ledger.bouts}"
        counted = "–" if ledger is None else f"{ledger.f1:.2f}"
        shares = (_share(*figure.side), _share(*figure.status))
        rows.append((one.id, f"{figure.f1:.3f}", *shares, counted, exact))
    return _table("recording|F1|side|status|counted F1|final", rows)


def _changes(run: Run, against: Run) -> str:
    """What got right and what got wrong since the earlier run, truth by truth."""
    before = {one.id: one for one in against.recordings}
    parts = ["## Gains and losses"]
    for one in run.recordings:
        if one.id not in before:
            continue
        old, new = _by_key(before[one.id].claims.outcomes), _by_key(one.claims.outcomes)
        gains = [new[key] for key in new if key in old and _better(old[key], new[key])]
        losses = [new[key] for key in new if key in old and _better(new[key], old[key])]
        lines = [f"- gain: {_shown(item)}" for item in gains] + [
            f"- **loss**: {_shown(item)}" for item in losses
        ]
        past, now = before[one.id].claims.headline.f1, one.claims.headline.f1
        title = f"### {one.id}: F1 {past:.3f} → {now:.3f}, {len(gains)} gains, {len(losses)} losses"
        old_ledger, new_ledger = before[one.id].ledger, one.ledger
        if old_ledger and new_ledger:
            title += f"; final {old_ledger.finals} → {new_ledger.finals}"
            title += f"; counted F1 {old_ledger.f1:.2f} → {new_ledger.f1:.2f}"
        if lines or past != now:
            parts.append("\n".join([title, "", *lines]))
    return "\n\n".join(parts if len(parts) > 1 else [*parts, "No label fares otherwise than before."])


def _by_key(outcomes: tuple[Outcome, ...]) -> dict[str, Outcome]:
    return {one.key: one for one in outcomes if one.key}


def _worth(outcome: Outcome) -> int:
    """Right is worth most, missed least; every wrong attribute takes one away."""
    if outcome.verdict == "missed":
        return -9
    return 0 if outcome.verdict in RIGHT else -1 - outcome.verdict.count(",")


def _better(old: Outcome, new: Outcome) -> bool:
    return _worth(new) > _worth(old)


def _shown(one: Outcome) -> str:
    meant = f" truth {one.truth}" if one.truth else ""
    instead = " instead" if one.verdict == "missed" else ""
    heard = f" heard{instead} {one.heard}" if one.heard else ""
    return f"{one.at_s:.1f} s {one.kind}: {one.verdict}:{meant}{heard} — {one.line}"


def _errors(run: Run) -> str:
    parts = ["## Errors"]
    for one in run.recordings:
        wrong = [outcome for outcome in one.claims.outcomes if outcome.verdict not in RIGHT]
        problems = one.ledger.problems if one.ledger else ()
        lines = [f"- {_shown(outcome)}" for outcome in wrong] + [
            f"- ledger: {problem}" for problem in problems
        ]
        if lines:
            parts.append("\n".join([f"### {one.id}", "", *lines]))
    return "\n\n".join(parts)
