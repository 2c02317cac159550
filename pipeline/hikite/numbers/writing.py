"""Tables as files: JSON and CSV."""

import csv
import io
import json

from hikite.numbers.rates import Rate
from hikite.numbers.tables import Line, Table


def as_json(table: Table) -> str:
    """One document: what was asked, what it rests on in numbers and in words, the lines."""
    whole = {"basis": table.basis, **table.model_dump(mode="json")}
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def as_csv(table: Table) -> str:
    """One line a row (RFC 4180), shares with their intervals; every row says how it was counted."""
    text = io.StringIO()
    writer = csv.writer(text)
    counts, rates = columns_of(table)
    shares = [f"{name}_{part}" for name in rates for part in ("rate", "low", "high")]
    ids = [f"{name}_id".replace(" ", "_") for name in table.names]
    names = [name.replace(" ", "_") for name in table.names]
    writer.writerow([*ids, *names, "rests_on", *counts, *shares, "sure", "weighted"])
    for line in table.lines:
        told = [_number(line.counts[name]) for name in counts]
        ends = [end for name in rates for end in _ends(line.rates[name])]
        ask = table.ask
        writer.writerow([*line.keys, *line.labels, line.rests_on, *told, *ends, ask.sure, int(ask.weighted)])
    return text.getvalue()


def columns_of(table: Table) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names of the counts and of the rates, the same in every line; none without lines."""
    first: Line | None = table.lines[0] if table.lines else None
    return (tuple(first.counts), tuple(first.rates)) if first else ((), ())


def _ends(rate: Rate | None) -> tuple[object, ...]:
    return ("", "", "") if rate is None else (round(rate.share, 6), round(rate.low, 6), round(rate.high, 6))


def _number(value: float) -> object:
    return int(value) if value.is_integer() else round(value, 4)
