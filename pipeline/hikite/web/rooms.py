"""What every page draws on: the archive, the lexicon, and a recording as a reviewer has it."""

import secrets
from collections import OrderedDict
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import NamedTuple

from hikite.archive import Archive
from hikite.archive.anchors import Attached, attach
from hikite.archive.decisions import Decision
from hikite.archive.derivations.deriving import loaded
from hikite.archive.kept import KeptEvent, KeptRecording
from hikite.archive.revisions import revised
from hikite.numbers import Ask, Table, count
from hikite.process import Lexicon
from hikite.records import Recording
from hikite.web.arrangements import Arrangement
from hikite.web.layouts import laid_out
from hikite.web.verses import Chapter, Note, Verse

_REMEMBERED = 24


class Reading(NamedTuple):
    """A recording with one reviewer's decisions in it, and laid out."""

    kept: KeptRecording
    recording: Recording
    attached: tuple[Attached, ...]
    events: tuple[KeptEvent, ...]
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
        self._readings: OrderedDict[tuple[object, ...], Reading] = OrderedDict()
        self._tables: OrderedDict[tuple[object, ...], Table] = OrderedDict()
        self._lock = Lock()

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
        found = attach(archive, number, reviewer, undone=True) if reviewer else ()
        more = besides.id if besides else None
        attached = tuple(
            one
            for one in found
            if one.decision.id == more or not (one.decision.undone or one.decision.id == without)
        )
        key = (number, kept, tuple(one.decision for one in attached))
        with self._lock:
            if key in self._readings:
                self._readings.move_to_end(key)
                return self._readings[key]
        made = self._made(archive, kept, attached)
        with self._lock:
            self._readings[key] = made
            while len(self._readings) > _REMEMBERED:
                self._readings.popitem(last=False)
        return made

    def table(self, archive: Archive, ask: Ask) -> Table:
        """What is counted of the archive as it is now; of a large one it takes seconds, but once."""
        state = archive.db.execute("SELECT count(*), max(kept_at) FROM recordings").fetchone()
        key = (ask, *state)
        with self._lock:
            if key in self._tables:
                return self._tables[key]
        made = count(archive, ask)
        with self._lock:
            self._tables[key] = made
            while len(self._tables) > _REMEMBERED:
                self._tables.popitem(last=False)
        return made

    def _made(self, archive: Archive, kept: KeptRecording, attached: tuple[Attached, ...]) -> Reading:
        events = tuple(archive.events(kept.id))
        recording = revised(archive.reading(kept.id), attached, self.lexicon)
        chapters = laid_out(recording, self.lexicon, attached, events)
        return Reading(kept, recording, attached, events, chapters)
