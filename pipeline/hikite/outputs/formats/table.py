"""CSV: one entry a row, after RFC 4180 (commas, double quotes, CRLF line ends), UTF-8."""

import csv
import io

from hikite.outputs.entries import BoutRecord, Entry
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Recording, Tally

COLUMNS = (
    "recording", "bout", "id", "start_ms", "end_ms", "clock_low_s", "clock_high_s", "clock_best_s",
    "golden", "side", "competitor", "kind", "concept", "label", "status", "counts", "points", "score_class",
    "seconds", "stated", "score_after", "confidence", "side_confidence", "status_confidence", "alternatives",
    "attributes", "generic", "fell", "unspoken", "ruleset", "row", "counters", "after", "repeats", "words",
    "cue", "start", "stop", "statement", "speaker", "reasons", "sha256", "tool", "lexicon", "schema_version",
)  # fmt: skip


def _row(cells: tuple[object, ...]) -> str:
    line = io.StringIO()
    csv.writer(line).writerow(["" if cell is None else cell for cell in cells])
    return line.getvalue()


def _score(score: dict[str, Tally]) -> str:
    """``red points=4; blue points=0``: every number that was said or reckoned, by side."""
    sides = []
    for side, tally in score.items():
        counts = tally.model_dump(exclude_none=True)
        sides.append(" ".join([side, *(f"{name}={count}" for name, count in counts.items())]))
    return "; ".join(sides)


def _cells(entry: Entry) -> tuple[object, ...]:
    clock, quote = entry.clock, entry.quotes[0] if entry.quotes else None
    span = quote.spans[0] if quote else None
    flat: dict[str, object] = {
        "clock_low_s": clock.low_s if clock else None,
        "clock_high_s": clock.high_s if clock else None,
        "clock_best_s": clock.best_s if clock else None,
        "golden": clock.golden if clock else None,
        "stated": _score(entry.stated),
        "score_after": _score(entry.score_after),
        "alternatives": "; ".join(f"{one.concept}={one.probability}" for one in entry.alternatives),
        "attributes": "; ".join(entry.attributes),
        "words": quote.words if quote else None,
        "cue": span.cue if span else None,
        "start": span.start if span else None,
        "stop": span.stop if span else None,
        "statement": quote.statement if quote else None,
        "speaker": quote.speaker if quote else None,
        "reasons": "; ".join(f"{one.name}={one.weight:g}" for one in entry.reasons),
    }
    return tuple(flat[name] if name in flat else getattr(entry, name) for name in COLUMNS)


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    return "".join(_row(_cells(entry)) for bout in record.bouts for entry in bout.entries)


FORMAT = Format("csv", ".csv", "one entry a row, for a spreadsheet", True, _body, _row(COLUMNS))
