"""The published record: one entry an event, every key always there; the schema is versioned."""

from typing import Literal

from pydantic import BaseModel

from hikite.records import ClaimKind, Clock, Competitor, OtherScore, Reason, Result, Status, Tally

SCHEMA_VERSION = "1.0"


class Span(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Characters ``start`` to ``stop`` of one cue's text; ``cue`` counts the recording's cues from 0."""

    cue: int
    start: int
    stop: int


class Quote(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The words an entry rests on, as written, and the whole statement they stand in.

    ``words`` are the texts of ``spans`` joined by single spaces: a statement may cross cues.
    """

    words: str
    spans: tuple[Span, ...]
    statement: str
    speaker: str | None
    start_ms: int
    end_ms: int


class Reading(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Another concept that the words may name, with its probability; ``how`` says how it was met."""

    concept: str
    label: str
    probability: float
    form: str
    how: Literal["exact", "near", "sound"]


class Entry(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One event of a bout.

    ``id`` is ``b<bout>.<number>`` and unique in the recording. Times are milliseconds of the recording,
    ``clock`` is the match clock in seconds. ``counts`` says that it is a line of the score; ``row`` is the
    row of ``ruleset`` it rests on. ``quotes`` are the entry's own words first, then those of the claims it
    also rests on; an ``unspoken`` entry may have none. ``counters``, ``after`` and ``repeats`` are ids of
    entries. Confidences are probabilities: that it happened as entered, of the side, of the status.
    """

    schema_version: Literal["1.0"] = "1.0"
    tool: str
    lexicon: str
    recording: str
    sha256: str
    bout: int
    ruleset: str
    id: str
    start_ms: int
    end_ms: int
    clock: Clock | None
    side: str | None
    competitor: str | None
    kind: ClaimKind
    concept: str
    label: str
    alternatives: tuple[Reading, ...]
    generic: bool
    attributes: tuple[str, ...]
    status: Status
    counts: bool
    points: int | None
    score_class: str | None
    stated: dict[str, Tally]
    seconds: int | None
    elapsed: bool
    of: str | None
    fell: bool | None
    score_after: dict[str, Tally]
    confidence: float
    side_confidence: float
    status_confidence: float
    reasons: tuple[Reason, ...]
    quotes: tuple[Quote, ...]
    row: str | None
    unspoken: bool
    counters: str | None
    after: str | None
    repeats: str | None


class Clash(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What does not add up, in plain words, with the words at odds and the entries they went into."""

    at_ms: int
    problem: str
    quotes: tuple[Quote, ...]
    entries: tuple[str, ...]


class BoutEntries(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One bout with its final score, its result, what does not add up, and its entries in time order."""

    number: int
    ruleset: str
    ruleset_confidence: float
    sides: tuple[str, str]
    competitors: tuple[Competitor, ...]
    start_ms: int
    end_ms: int
    final: dict[str, Tally]
    final_confidence: float
    result: Result
    contradictions: tuple[Clash, ...]
    warnings: tuple[str, ...]
    other_finals: tuple[OtherScore, ...] = ()
    entries: tuple[Entry, ...]


class BoutRecord(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One recording: where it came from, what was mended in reading it, and its bouts."""

    schema_version: Literal["1.0"] = "1.0"
    tool: str
    lexicon: str
    recording: str
    sha256: str
    format: str
    encoding: str
    language: str | None
    duration_ms: int
    title: str | None
    date: str | None
    address: str | None
    mendings: tuple[str, ...]
    bouts: tuple[BoutEntries, ...]
