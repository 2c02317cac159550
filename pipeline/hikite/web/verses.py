"""A recording as a page shows it: chapters of verses, with the notes beside them."""

from typing import Literal, NamedTuple

Grade = Literal["vouched", "sure", "likely", "doubtful", "guess"]
_GRADES: tuple[tuple[float, Grade], ...] = ((0.9, "sure"), (0.75, "likely"), (0.5, "doubtful"))


class Word(NamedTuple):
    """A word as written, with what stands behind it up to the next, and when it was said."""

    text: str
    at_ms: int


class Run(NamedTuple):
    """Words in a row; those of one entry carry its id, number, kind and how sure it is."""

    words: tuple[Word, ...]
    entry: str | None = None
    number: int = 0
    kind: str = ""
    grade: Grade = "sure"
    quiet: bool = False


class Note(NamedTuple):
    """What the margin says of one entry. ``sure`` is in words, ``score`` empty where it did not change.

    ``event`` is the number in the archive of the machine's event that it goes back to, None where a person
    added it. ``decided`` tells by whom and how it was decided on, ``decision`` the number to take that back
    by. ``quiet`` notes tell of what is seldom looked for: clocks, stated scores, calls. ``short`` is
    the last of the name.
    """

    entry: str
    number: int
    event: int | None
    start_ms: int
    end_ms: int
    words: str
    kind: str
    concept: str
    who: str
    short: str
    side: str
    what: str
    how: str
    status: str
    value: str
    points: int | None
    score_class: str | None
    score: str
    grade: Grade
    sure: str
    chance: float
    quiet: bool
    counts: bool
    unspoken: bool = False
    decided: str = ""
    decision: int | None = None


class Struck(NamedTuple):
    """An entry that a person struck out, or a bout border they set: told where it stood."""

    at_ms: int
    says: str
    decision: int
    who: str


class Verse(NamedTuple):
    """One statement with its time, the match clock where it is known, and its notes.

    ``score`` is the one after it; ``scored`` says that it changed here, ``opens`` that another speaks now.
    """

    number: int
    at_ms: int
    time: str
    clock: str
    speaker: str
    runs: tuple[Run, ...]
    notes: tuple[Note, ...]
    struck: tuple[Struck, ...]
    score: str
    scored: bool = False
    opens: bool = False


class Party(NamedTuple):
    """One side of a bout, by its name or else its colour."""

    side: str
    name: str
    nation: str


class Chapter(NamedTuple):
    """One bout: its heading and its verses. Number 0 is a talk in which no bout was found.

    ``classes`` are those its scores have, none where they are points.
    """

    number: int
    parties: tuple[Party, ...]
    ruleset: str
    result: str
    final: str
    classes: tuple[str, ...]
    start_ms: int
    verses: tuple[Verse, ...]
    clashes: tuple[tuple[int, str], ...]
    warnings: tuple[str, ...]

    @property
    def notes(self) -> tuple[Note, ...]:
        """All its notes, in the order of the talk."""
        return tuple(note for verse in self.verses for note in verse.notes)


def grade_of(confidence: float) -> Grade:
    """How sure, in one of four words."""
    return next((name for least, name in _GRADES if confidence >= least), "guess")
