"""What every page draws on: the archive, the lexicon, and a recording as a reviewer has it."""

import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from typing import NamedTuple

from hikite.archive import Archive
from hikite.archive.anchors import Attached, find_event
from hikite.archive.decisions import Decision, decisions_of
from hikite.archive.derivations.deriving import loaded
from hikite.archive.kept import EVENTS, KeptEvent, KeptRecording, entry_of
from hikite.archive.revisions import revised
from hikite.numbers import Ask, Table, count
from hikite.process import Lexicon
from hikite.records import Recording
from hikite.web.arrangements import Arrangement
from hikite.web.layouts import laid_out
from hikite.web.memories import Memory
from hikite.web.origins import Origins, Untouched
from hikite.web.verses import Chapter, Note, Verse

_READINGS, _RECORDINGS = 24, 4


class Reading(NamedTuple):
    """A recording with one reviewer's decisions in it, and laid out."""

    kept: KeptRecording
    recording: Recording
    chapters: tuple[Chapter, ...]

    def find(self, event: int) -> tuple[Chapter, Verse, Note] | None:
        """Where the machine's event of this number stands now."""
        places = ((c, v, n) for c in self.chapters for v in c.verses for n in v.notes)
        return next((place for place in places if place[2].event == event), None)


class Room:
    """One archive, read by any number of threads; each opens it for itself."""

    def __init__(self, arrangement: Arrangement) -> None:
        self.arrangement = arrangement
        self.secret = secrets.token_bytes(32)
        self._readings = Memory[Reading](_READINGS)
        self._recordings = Memory[Recording](_RECORDINGS)
        self._events = Memory[tuple[KeptEvent, ...]](_RECORDINGS)
        self._tables = Memory[Table](_READINGS)

    @property
    def lexicon(self) -> Lexicon:
        """The terms and rule sets, read once."""
        return loaded()

    @contextmanager
    def opened(self, *, write: bool = False) -> Iterator[Archive]:
        """The archive, for as long as one page is made."""
        with Archive.open(self.arrangement.archive, write=write) as archive:
            yield archive

    def reading(
        self,
        archive: Archive,
        number: int,
        reviewer: str | None,
        *,
        without: int | None = None,
        besides: Decision | None = None,
    ) -> Reading | None:
        """The recording as this reviewer has it; None where there is none. Without a reviewer: the machine's.

        Decision ``without`` is taken as not made, one taken back that is told ``besides`` as made.
        """
        kept = archive.recording(number)
        if kept is None:
            return None
        found = decisions_of(archive, number, reviewer, undone=True) if reviewer else ()
        more = besides.id if besides else None
        decisions = tuple(one for one in found if one.id == more or not (one.undone or one.id == without))
        key = (kept, tuple(one.id for one in decisions))
        return self._readings.of(key, lambda: self._made(archive, kept, decisions))

    def table(self, archive: Archive, ask: Ask) -> Table:
        """What is counted of the archive as it is now; of a large one it takes seconds, but once."""
        state = archive.db.execute("SELECT count(*), max(kept_at) FROM recordings").fetchone()
        return self._tables.of((ask, *state), lambda: count(archive, ask))

    def _made(self, archive: Archive, kept: KeptRecording, decisions: tuple[Decision, ...]) -> Reading:
        read = self._recordings.of(kept, lambda: archive.reading(kept.id))
        if not decisions:
            chapters = laid_out(read, self.lexicon, (), Untouched(_numbers(archive, kept.id)))
            return Reading(kept, read, chapters)
        events = self._events.of(kept, lambda: tuple(archive.events(kept.id)))
        attached = tuple(Attached(decision=one, event=find_event(one.anchor, events)) for one in decisions)
        recording = revised(read, attached, self.lexicon)
        chapters = laid_out(recording, self.lexicon, attached, Origins(events, attached))
        return Reading(kept, recording, chapters)


def _numbers(archive: Archive, recording: int) -> dict[str, int]:
    """The machine's events of a recording by the ids of their entries."""
    rows = archive.db.execute(
        "SELECT id, bout, number FROM events WHERE id >= ? AND id < ?",
        (recording << EVENTS, (recording + 1) << EVENTS),
    )
    return {entry_of(bout, number): id_ for id_, bout, number in rows}
