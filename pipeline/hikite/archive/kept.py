"""What an archive gives back: frozen rows."""

from typing import Annotated

from pydantic import BaseModel, BeforeValidator

EVENTS, BOUTS = 20, 16
"""Bits for the number of an event or statement within its recording, and of a bout."""


def _parted(text: object) -> object:
    return tuple(part for part in text.split("|") if part) if isinstance(text, str) else text


Names = Annotated[tuple[str, ...], BeforeValidator(_parted)]


def bout_number(bout: int) -> int:
    """The number of a bout within its recording."""
    return bout & ((1 << BOUTS) - 1)


def entry_of(bout: int, number: int) -> str:
    """The id that an event has in the record of its recording: ``b1.12``."""
    return f"b{bout_number(bout)}.{number}"


class Refusal(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """A file that is not kept, and why."""

    path: str
    reason: str


class KeptRecording(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One recording; ``path`` is a file that has its content, ``gone`` says that none is found any more.

    ``tool``, ``words`` and ``rules`` tell what it was read with, ``kept_at`` when (UTC, ISO 8601).
    """

    id: int
    sha256: str
    title: str | None
    date: str | None
    address: str | None
    format: str
    encoding: str
    language: str | None
    duration_ms: int
    cues: int
    tool: str
    words: str
    rules: str
    kept_at: str
    path: str | None
    media: str | None
    gone: bool


class KeptBout(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One bout; ``final`` is the score as shown, first side first, ``duration_s`` its set length."""

    id: int
    recording: int
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


class KeptCompetitor(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One side of a bout; ``person`` is the same for all bouts in which the name is written alike."""

    bout: int
    side: str
    person: int | None
    name: str | None
    nation: str | None


class KeptEvent(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One event with what was worked out for it.

    ``head`` is false where it only tells more of the ``moment`` that another event opens (a landing, the
    points of a throw, a name said again). ``gained``/``gained_class`` is what an action brought, by the
    score of its moment; ``scored`` says that it brought one or is one.
    ``own_before``, ``other_before``, ``lead`` are points before it as the acting side has them,
    ``standing`` is 1 leading, 0 level, -1 behind, in classes too. ``grips`` are those the acting side is
    taken to hold. ``attempt`` is which try of this technique by this side in the bout it is. ``previous``
    is the event that opened the moment before. ``clock_*_s`` is the match clock.
    """

    id: int
    recording: int
    bout: int
    number: int
    start_ms: int
    end_ms: int
    kind: str
    concept: str
    status: str
    side: str | None
    person: int | None
    opponent: int | None
    generic: bool
    attributes: Names
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
    grips: Names
    attempt: int | None
    previous: int | None

    @property
    def entry(self) -> str:
        """Its id in the record of its recording: ``b1.12``."""
        return entry_of(self.bout, self.number)
