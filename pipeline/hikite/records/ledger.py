"""The bout as inferred: events, running score, clock, result and what does not add up."""

from pydantic import BaseModel, Field

from hikite.records.claim import ClaimKind, Reason, Status, Tally
from hikite.records.mention import Candidate
from hikite.records.sheet import Competitor


class Clock(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Bounds and best estimate of the match clock, seconds remaining (elapsed in golden score)."""

    low_s: float
    high_s: float
    best_s: float
    golden: bool = False


class Otherwise(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What a line of the score may have been instead, with its probability; without a side: nothing."""

    side: str | None = None
    points: int | None = None
    score_class: str | None = None
    probability: float


class OtherScore(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Another final score that is possible, with its probability."""

    final: dict[str, Tally]
    probability: float


class Event(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One entry of the bout record; ``claims`` are the indexes of the claims it rests on.

    ``counts`` says that it is a line of the score ledger: ``points`` (or ``score_class``) then went to
    ``side`` — for a judo ``shido``, the side penalised. ``score_after`` is by side. ``row`` names the
    rule-set row the value rests on. ``unspoken`` marks an event nobody named. ``confidence`` is
    P(it happened as entered). Of a line of the score ``value_confidence`` is P(its value | it happened),
    ``score_confidence`` P(the score after it is as entered), and ``otherwise`` what it may have been instead.
    """

    start_ms: int
    end_ms: int
    kind: ClaimKind
    concept: str
    status: Status
    side: str | None = None
    alternatives: tuple[Candidate, ...] = ()
    generic: bool = False
    attributes: tuple[str, ...] = ()
    counts: bool = False
    points: int | None = None
    score_class: str | None = None
    stated: dict[str, Tally] = Field(default_factory=dict)
    seconds: int | None = None
    elapsed: bool = False
    of: str | None = None
    fell: bool | None = None
    counters: int | None = None
    after: int | None = None
    repeats: int | None = None
    score_after: dict[str, Tally] = Field(default_factory=dict)
    clock: Clock | None = None
    row: str | None = None
    unspoken: bool = False
    claims: tuple[int, ...] = ()
    confidence: float = 1.0
    side_confidence: float = 1.0
    status_confidence: float = 1.0
    value_confidence: float = 1.0
    score_confidence: float | None = None
    otherwise: tuple[Otherwise, ...] = ()
    reasons: tuple[Reason, ...] = ()


class Contradiction(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What does not add up, in plain words, with the claims at odds."""

    at_ms: int
    problem: str
    claims: tuple[int, ...] = ()


class Result(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Who won and how: ``points``, ``superiority``, ``total-victory``, ``submission``, ``fall`` …"""

    winner: str | None = None
    by: str | None = None
    confidence: float = 0.0
    row: str | None = None


class Bout(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One bout of a recording; ``first_claim`` to ``stop_claim`` are the claims it covers.

    ``other_finals`` are the next most probable final scores.
    """

    number: int
    ruleset: str
    ruleset_confidence: float
    sides: tuple[str, str]
    competitors: tuple[Competitor, ...]
    start_ms: int
    end_ms: int
    first_claim: int
    stop_claim: int
    events: tuple[Event, ...]
    final: dict[str, Tally]
    final_confidence: float
    result: Result
    contradictions: tuple[Contradiction, ...] = ()
    warnings: tuple[str, ...] = ()
    other_finals: tuple[OtherScore, ...] = ()


class Ledger(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Every bout of one recording."""

    bouts: tuple[Bout, ...]
