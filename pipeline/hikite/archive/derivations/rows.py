"""The rows of one recording, numbered from its own beginning; the writer adds the recording's number."""

from typing import NamedTuple

from hikite.archive.parts import Parts


class RecordingRow(NamedTuple):
    """The recording itself, in the order of its table."""

    sha256: str
    title: str | None
    folded_title: str
    date: str | None
    day: int
    address: str | None
    format: str
    encoding: str
    language: str | None
    duration_ms: int
    cues: int
    sheet: str
    ruleset: str | None


class StatementRow(NamedTuple):
    """One statement of the talk."""

    number: int
    start_ms: int
    end_ms: int
    speaker: str | None
    text: str


class CompetitorRow(NamedTuple):
    """One side of a bout."""

    bout: int
    side: str
    name: str | None
    nation: str | None


class BoutRow(NamedTuple):
    """One bout."""

    number: int
    ruleset: str
    ruleset_confidence: float
    first_side: str
    second_side: str
    start_ms: int
    end_ms: int
    duration_s: int | None
    final: str
    final_confidence: float
    winner: str | None
    won_by: str | None
    result_confidence: float


class EventRow(NamedTuple):
    """One event; ``place``, ``moment`` and ``previous`` count the recording's events from 1."""

    place: int
    bout: int
    number: int
    start_ms: int
    end_ms: int
    kind: str
    concept: str
    status: str
    side: str | None
    generic: bool
    attributes: str
    counts: bool
    points: int | None
    score_class: str | None
    seconds: int | None
    fell: bool | None
    unspoken: bool
    rule_row: str | None
    clock_low_s: float | None
    clock_high_s: float | None
    clock_best_s: float | None
    golden: bool | None
    confidence: float
    side_confidence: float
    status_confidence: float
    statement: int | None
    words: str
    head: bool
    moment: int
    gained: int | None
    gained_class: str | None
    scored: bool
    landing: str | None
    own_before: int | None
    other_before: int | None
    lead: int | None
    standing: int | None
    score_before: str | None
    score_after: str | None
    grips: str
    attempt: int | None
    previous: int | None


class Derived(NamedTuple):
    """All that is kept of one recording; ``path`` is the file it was read from."""

    path: str
    recording: RecordingRow
    parts: Parts
    lexicon: str
    talk: tuple[StatementRow, ...]
    bouts: tuple[BoutRow, ...]
    competitors: tuple[CompetitorRow, ...]
    events: tuple[EventRow, ...]
