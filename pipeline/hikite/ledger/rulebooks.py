"""A rule set as data: every value, ladder, hold, end and tie rule comes from its file, none from code."""

from datetime import date
from typing import Literal

from pydantic import BaseModel, Field, model_validator

Mark = Literal["published", "inference", "memory", "contradicted"]
Gives = int | str
"""Points (``2``) or a score class (``"waza-ari"``); ``0`` is nothing, ``"total-victory"`` ends the bout."""

TOTAL = "total-victory"


class Row(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One row of a rule set: its id, where it was read, and how sure that is."""

    id: str
    source: str = ""
    mark: Mark
    note: str = ""


class Throw(Row, frozen=True):
    """What a throw gives by landing; ``fell`` is the thrower's, ``start`` the opponent's position."""

    landing: tuple[str, ...]
    fell: bool | None = None
    start: Literal["standing", "ground"] = "standing"
    gives: Gives


class Hold(Row, frozen=True):
    """What a hold of at least ``seconds`` gives; ``golden`` rows hold in golden score alone."""

    seconds: int
    gives: Gives
    golden: bool = False


class Award(Row, frozen=True):
    """What a named action gives: a takedown, a step-out, a knockdown."""

    name: str
    gives: Gives


class Step(Row, frozen=True):
    """One rung of a penalty ladder: what goes to the opponent, or that the athlete is ``out``."""

    gives: Gives = 0
    out: bool = False


class Ladder(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Penalties of one kind in order; beyond the last rung it repeats. ``shared`` counts both sides.

    ``replaces`` says that a rung's score takes the place of the one before (judo to 2012). ``counted``
    penalties are lines of the score ledger themselves (judo shido).
    """

    concept: str
    also: tuple[str, ...] = ()
    shared: bool = False
    replaces: bool = False
    counted: bool = False
    steps: tuple[Step, ...]


class End(Row, frozen=True):
    """What ends a bout: a ``lead`` in points, or ``count`` of a ``score`` (``points`` among them).

    ``golden`` ends it in golden score alone.
    """

    by: str
    lead: int | None = None
    score: str | None = None
    count: int = 1
    golden: bool = False
    since: date | None = None
    until: date | None = None


class Tie(Row, frozen=True):
    """One step of the order that settles equal points at time."""

    by: Literal[
        "actions", "quality", "penalties", "last", "activity", "golden-score", "decision", "advantages"
    ]


class Duration(Row, frozen=True):
    """How long a bout lasts; the first of a file is the usual one."""

    who: str
    seconds: int
    periods: int = 1


class Fact(Row, frozen=True):
    """A row that no computation uses yet, kept so that a record or a reader may point at it."""

    says: str


class Vocabulary(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Concepts heard under this rule set and not its neighbours (``own``) or never under it (``alien``).

    ``expected`` concepts are missed when nobody says them; ``rare`` is how much rarer than its neighbours
    the rule set is met, as a log weight.
    """

    own: tuple[str, ...] = ()
    alien: tuple[str, ...] = ()
    expected: tuple[str, ...] = ()
    rare: float = 0.0


class Action(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """A family of techniques that score alike.

    ``scores`` is P(it scored | said to be completed, no award said); ``shares`` weighs the values it
    may bring (or the name of an award row, or ``"throw"`` for the throw matrix); ``default`` takes
    every technique that no other action lists.
    """

    name: str
    concepts: tuple[str, ...] = ()
    default: bool = False
    scores: float = Field(ge=0, le=1)
    shares: dict[str, float] = {}


class Actions(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """How techniques of one sport score: statistics, not rules. ``typical`` weighs unexplained values.

    ``landings`` and ``falls`` are how often a throw ends so, and the thrower goes down, when nobody says.
    """

    typical: dict[str, float]
    landings: dict[str, float] = {}
    falls: float = 0.5
    actions: tuple[Action, ...]


class Ruleset(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One era of one sport's rules, as its file gives them."""

    key: str
    name: str
    sport: str
    since: date | None = None
    until: date | None = None
    sides: tuple[str, str] = ("red", "blue")
    classes: tuple[str, ...] = ()
    adds_up: dict[str, str] = {}
    break_s: int = 0
    golden: bool = False
    resets: bool = False
    caution: str = "The rule book in force and the referee decide; this record is a reading of what was said."
    actions: str
    durations: tuple[Duration, ...]
    throws: tuple[Throw, ...] = ()
    holds: tuple[Hold, ...] = ()
    awards: tuple[Award, ...] = ()
    ladders: tuple[Ladder, ...] = ()
    ends: tuple[End, ...]
    ties: tuple[Tie, ...] = ()
    facts: tuple[Fact, ...] = ()
    vocabulary: Vocabulary = Vocabulary()

    @model_validator(mode="after")
    def _ids_are_unique(self) -> "Ruleset":
        seen: set[str] = set()
        for row in self.rows():
            if row.id in seen and not isinstance(row, Throw | Award | Hold | Step | End | Tie):
                raise ValueError(f"row {row.id} is given twice")
            seen.add(row.id)
        return self

    def rows(self) -> tuple[Row, ...]:
        """Every row of the file, in its order."""
        steps = tuple(step for ladder in self.ladders for step in ladder.steps)
        named = (*self.durations, *self.throws, *self.holds, *self.awards)
        return (*named, *steps, *self.ends, *self.ties, *self.facts)

    def row(self, id: str) -> Row | None:
        """The row with this id, or nothing."""
        return next((row for row in self.rows() if row.id == id), None)

    @property
    def leads(self) -> tuple[int, ...]:
        """The leads in points that any row says to end a bout, of whatever time."""
        return tuple(end.lead for end in self.ends if end.lead is not None)

    @property
    def by_points(self) -> bool:
        """Whether scores are points (sambo, wrestling) and not classes (judo)."""
        return not self.classes
