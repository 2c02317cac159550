"""Entries and recordings as flat rows, the same in every shape."""

from pydantic import BaseModel

from hikite.datasets.examples import Example
from hikite.datasets.plans import Part
from hikite.outputs.entries import Entry
from hikite.records import ClaimKind, Status


class SpanRow(BaseModel, frozen=True, extra="forbid"):
    """One label. ``start`` to ``stop`` are characters of the recording's text, None where nobody said it.

    ``checked`` says that a person stands for it. Times are of the recording; ``clock_s`` is the match clock.
    """

    recording: str
    part: Part
    bout: int
    id: str
    start: int | None
    stop: int | None
    words: str | None
    start_ms: int
    end_ms: int
    clock_s: float | None
    kind: ClaimKind
    concept: str
    label: str
    generic: bool
    attributes: str
    status: Status
    side: str | None
    competitor: str | None
    counts: bool
    points: int | None
    score_class: str | None
    unspoken: bool
    confidence: float
    side_confidence: float
    status_confidence: float
    checked: bool


class RecordingRow(BaseModel, frozen=True, extra="forbid"):
    """One recording; ``group`` is the same for all that share athletes, directly or through others."""

    recording: str
    part: Part
    group: int
    file: str
    title: str | None
    date: str | None
    address: str | None
    language: str | None
    format: str
    duration_ms: int
    words: int
    bouts: int
    labels: int
    checked: int
    tool: str
    lexicon: str


class BoutRow(BaseModel, frozen=True, extra="forbid"):
    """One bout, with who fought it."""

    recording: str
    part: Part
    bout: int
    ruleset: str
    ruleset_confidence: float
    start_ms: int
    end_ms: int
    first_side: str
    first_name: str | None
    second_side: str
    second_name: str | None
    winner: str | None
    won_by: str | None
    result_confidence: float


def span_row(example: Example, entry: Entry) -> SpanRow:
    """One label of an example."""
    start, stop = example.text.place(entry.quotes[0]) if entry.quotes else (None, None)
    own = {name: getattr(entry, name) for name in SpanRow.model_fields if name in type(entry).model_fields}
    return SpanRow.model_validate(
        own
        | {
            "recording": example.kept.sha256,
            "part": example.part,
            "start": start,
            "stop": stop,
            "words": example.text.whole[start:stop] if entry.quotes else None,
            "clock_s": entry.clock.best_s if entry.clock else None,
            "attributes": " ".join(entry.attributes),
            "checked": entry.id in example.checked,
        }
    )


def recording_row(example: Example) -> RecordingRow:
    """The example without its text and labels."""
    kept = example.kept
    return RecordingRow(
        recording=kept.sha256,
        part=example.part,
        group=example.group,
        file=example.record.recording,
        title=kept.title,
        date=kept.date,
        address=kept.address,
        language=kept.language,
        format=kept.format,
        duration_ms=kept.duration_ms,
        words=len(example.recording.talk.tokens),
        bouts=len(example.record.bouts),
        labels=len(example.entries),
        checked=sum(entry.id in example.checked for entry in example.entries),
        tool=kept.tool,
        lexicon=example.record.lexicon,
    )


def bout_rows(example: Example) -> tuple[BoutRow, ...]:
    """The bouts of an example."""
    rows = []
    for bout in example.record.bouts:
        names = {one.side: one.name for one in bout.competitors}
        first, second = bout.sides
        rows.append(
            BoutRow(
                recording=example.kept.sha256,
                part=example.part,
                bout=bout.number,
                ruleset=bout.ruleset,
                ruleset_confidence=bout.ruleset_confidence,
                start_ms=bout.start_ms,
                end_ms=bout.end_ms,
                first_side=first,
                first_name=names.get(first),
                second_side=second,
                second_name=names.get(second),
                winner=bout.result.winner,
                won_by=bout.result.by,
                result_confidence=bout.result.confidence,
            )
        )
    return tuple(rows)
