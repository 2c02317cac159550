"""What most needs a person's look: what is least sure and matters most."""

from typing import NamedTuple

from hikite.web.rooms import Reading
from hikite.web.verses import Note

_MATTERS = {
    "result": 1.0, "score": 0.6, "penalty": 0.6, "technique": 0.4, "hold": 0.4, "landing": 0.25,
    "stated_score": 0.3, "grip": 0.2, "clock": 0.1, "stoppage": 0.1,
}  # fmt: skip
_COUNTS = 1.0
_CLASH = 2.0
_CLASH_MS = 10_000


class Due(NamedTuple):
    """A note to be looked at, and how much it wants that: P(it is wrong) times what hangs on it."""

    note: Note
    weight: float


def queue_of(reading: Reading, *, whole: bool = False) -> tuple[Due, ...]:
    """What was not decided on yet, the most wanting first; the ``whole`` queue has what was, too.

    What stands near something that does not add up wants a look twice as much.
    """
    due = []
    for chapter in reading.chapters:
        at_odds = [at_ms for at_ms, _ in chapter.clashes]
        for note in chapter.notes:
            if note.event is not None and (whole or note.decision is None):
                near = any(abs(note.start_ms - at_ms) <= _CLASH_MS for at_ms in at_odds)
                due.append(Due(note, _weight(note) * (_CLASH if near else 1.0)))
    return tuple(sorted(due, key=lambda one: (-one.weight, one.note.start_ms)))


def _weight(note: Note) -> float:
    matters = _COUNTS + (note.points or 0) / 4 if note.counts else _MATTERS.get(note.kind, 0.1)
    return (1 - note.chance) * matters
