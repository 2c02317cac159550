"""What the speaker claims: who did what, and how it was meant."""

from typing import Literal

from pydantic import BaseModel, Field

from hikite.records.mention import Candidate
from hikite.records.sheet import Cast, Sheet

ClaimKind = Literal[
    "technique", "grip", "hold", "position", "landing", "score", "stated_score", "penalty",
    "clock", "stoppage", "result", "principle",
]  # fmt: skip
Status = Literal[
    "completed", "attempted", "failed", "threatened", "recalled", "supposed", "described",
    "taken", "broken", "sought", "given", "denied", "stated", "running",
]  # fmt: skip


class Reason(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Why a value was chosen: a named cue, the words it was read from, and its weight in log odds."""

    name: str
    words: str = ""
    weight: float = 0.0


class Tally(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One side's score as said. ``None`` is "not said". Points sports use ``points`` alone."""

    points: int | None = None
    ippon: int | None = None
    waza_ari: int | None = None
    yuko: int | None = None
    koka: int | None = None
    shido: int | None = None


class Claim(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One statement about the bout, read from tokens ``first`` to ``stop`` of the talk.

    ``side`` is the likeliest side and ``sides`` its probabilities over the two sides and ``""`` (nobody);
    likewise ``status``/``statuses``. The side of a score is who gets it, of a penalty who is penalised,
    of a landing who was thrown. ``points`` is the value said (of a penalty: to the opponent);
    ``score_class`` a judo score (``ippon``, ``waza-ari``, ``yuko``, ``koka``). ``tallies`` is a stated
    score by side; where the words do not tell whose number is whose, ``ordered`` is false and the
    tallies are in speaking order. ``margin`` is a stated lead. ``seconds`` is a clock reading or a hold's
    length. ``fell`` says whether the thrower went down. ``counters``, ``after`` and ``repeats`` are indexes
    of earlier claims that this one counters, was set up by, or names again. ``vouched`` says that a person
    who checked it stands for it: it is taken as certain; ``told`` that the words themselves name its side.
    """

    first: int
    stop: int
    start_ms: int
    end_ms: int
    kind: ClaimKind
    concept: str
    status: Status
    statuses: dict[str, float] = Field(default_factory=dict)
    side: str | None = None
    sides: dict[str, float] = Field(default_factory=dict)
    speaker: str | None = None
    alternatives: tuple[Candidate, ...] = ()
    generic: bool = False
    attributes: tuple[str, ...] = ()
    points: int | None = None
    score_class: str | None = None
    tallies: dict[str, Tally] = Field(default_factory=dict)
    ordered: bool = True
    margin: int | None = None
    seconds: int | None = None
    elapsed: bool = False
    of: str | None = None
    fell: bool | None = None
    counters: int | None = None
    after: int | None = None
    repeats: int | None = None
    vouched: bool = False
    told: bool = False
    confidence: float = 1.0
    reasons: tuple[Reason, ...] = ()


class Testimony(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """All that was claimed in one recording, in time order, with the bout sheet as given or learnt.

    ``casts`` tells the competitors bout by bout where the talk alone names those of several, ``worn`` the
    colours that competitors are called by again and again, ``era`` the year whose rules are said to be fought
    under. ``opens_ms`` and ``joins_ms`` are a person's word
    that at these times a bout begins, or that none does.
    """

    claims: tuple[Claim, ...]
    sheet: Sheet = Sheet()
    casts: tuple[Cast, ...] = ()
    worn: tuple[str, ...] = ()
    era: int | None = None
    opens_ms: tuple[int, ...] = ()
    joins_ms: tuple[int, ...] = ()
