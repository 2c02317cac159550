"""Timed text as it was read: cues of words, whatever the file format."""

from functools import cached_property

from pydantic import BaseModel


class Word(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One word of a cue as written (its punctuation included), with its time in milliseconds.

    ``start`` and ``stop`` are character offsets in the cue's text. ``measured`` is false where the
    time was interpolated from the cue's. ``probability`` is the recogniser's own, in [0, 1].
    """

    text: str
    start: int
    stop: int
    start_ms: int
    end_ms: int
    measured: bool = False
    probability: float | None = None


class Cue(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One caption or recogniser segment; ``line`` is its line in the file (from 1)."""

    text: str
    start_ms: int
    end_ms: int
    words: tuple[Word, ...]
    line: int
    label: str | None = None
    speaker: str | None = None
    settings: str | None = None


class Mending(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What was wrong with a cue and what was done about it; printed as ``file:line: problem``."""

    file: str
    line: int
    problem: str


class Transcript(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One recording's timed commentary, cues in time order."""

    source: str
    format: str
    encoding: str
    sha256: str
    cues: tuple[Cue, ...]
    mendings: tuple[Mending, ...] = ()
    language: str | None = None

    @cached_property
    def duration_ms(self) -> int:
        """Where the last cue ends."""
        return max((cue.end_ms for cue in self.cues), default=0)
