"""What a search gives back."""

from pydantic import BaseModel

from hikite.archive.searches.namings import Naming
from hikite.outputs.identities import with_time

LEAD_MS = 3_000
"""A link begins so long before the words: talk trails the action. Common practice, no source."""


class Partner(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The other event of a sequence."""

    id: int
    start_ms: int
    label: str
    status: str
    side: str | None
    words: str


class Hit(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One moment found: an event with its words, or a statement (then nothing of an event is told).

    ``entry`` is the event's id in the record of its recording, ``id`` its number in the archive (of a
    statement, the statement's). ``path`` is a file with its words, ``media`` the recording beside it;
    ``link`` is an address that opens at the moment, with a W3C Media Fragment. ``partners`` are the other
    events of a sequence, in the order they were asked for.
    """

    id: int
    recording: int
    title: str | None
    date: str | None
    path: str | None
    media: str | None
    link: str
    start_ms: int
    end_ms: int
    statement: str
    speaker: str | None
    words: str = ""
    entry: str | None = None
    bout: int | None = None
    ruleset: str | None = None
    kind: str | None = None
    concept: str | None = None
    label: str | None = None
    status: str | None = None
    side: str | None = None
    competitor: str | None = None
    opponent: str | None = None
    clock_low_s: float | None = None
    clock_high_s: float | None = None
    clock_best_s: float | None = None
    golden: bool | None = None
    standing: int | None = None
    lead: int | None = None
    score_before: str | None = None
    points: int | None = None
    score_class: str | None = None
    grips: tuple[str, ...] = ()
    attempt: int | None = None
    confidence: float | None = None
    side_confidence: float | None = None
    status_confidence: float | None = None
    partners: tuple[Partner, ...] = ()


class Found(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The hits of one page. ``total`` counts all there are, or is None where they are more than ``over``."""

    hits: tuple[Hit, ...]
    total: int | None
    over: int
    namings: tuple[Naming, ...]


def moment_link(address: str, start_ms: int, end_ms: int) -> str:
    """The address with a temporal fragment: ``t=`` begin,end in seconds (W3C Media Fragments 1.0, 4.2.1)."""
    plain, _, before = address.partition("#")
    return f"{plain}#{with_time(before, max(start_ms - LEAD_MS, 0), max(end_ms, start_ms + 1))}"
