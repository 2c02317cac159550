"""Archives written row by row, so that every number in them is known."""

from hikite.archive import Archive
from hikite.archive.derivations.rows import BoutRow, CompetitorRow, Derived, EventRow, RecordingRow
from hikite.archive.lexicons import put_lexicon
from hikite.archive.planning import Place
from hikite.archive.stamps import Stamps
from hikite.archive.writing import put
from hikite.process import Lexicon

STAMPS = Stamps(tool="t", words="w", each={}, all_rules="r")
RED, BLUE = "Ilmar Destrow", "Rafe Pennaluk"


def event(place: int, kind: str, concept: str, status: str, side: str | None, **more: object) -> EventRow:
    """A row; sure, its own moment, no grips, a minute into a five-minute bout unless told otherwise."""
    row = dict.fromkeys(EventRow._fields)
    row |= {
        "place": place, "bout": 1, "number": place, "start_ms": place * 1000, "end_ms": place * 1000 + 500,
        "kind": kind, "concept": concept, "status": status, "side": side, "generic": False,
        "attributes": "", "counts": False, "unspoken": False, "clock_best_s": 250.0, "golden": False,
        "confidence": 1.0, "side_confidence": 1.0, "status_confidence": 1.0, "words": "", "head": True,
        "moment": place, "scored": False, "grips": "",
    }  # fmt: skip
    return EventRow(**{**row, **more})


def line(place: int, side: str, points: int | None = None, **more: object) -> EventRow:
    """A line of the score."""
    return event(place, "score", "points", "given", side, points=points, counts=True, scored=True, **more)


def keep_bout(
    archive: Archive, name: str, events: list[EventRow], winner: str | None,
    ruleset: str = "sambo.sport.2020", sure: float = 1.0,
) -> None:  # fmt: skip
    """One recording with one bout."""
    bout = BoutRow(1, ruleset, 1.0, "red", "blue", 0, 300_000, 300, "", sure, winner, "points", sure)
    recording = RecordingRow(
        name, name, name, "2026-05-09", 0, None, "webvtt", "utf-8", None, 300_000, 1, "{}", ruleset
    )
    people = (CompetitorRow(1, "red", RED, None), CompetitorRow(1, "blue", BLUE, None))
    derived = Derived(name, recording, {}, "l", (), (bout,), people, tuple(events))
    put(archive, derived, (Place(path=f"/{name}"),), "", STAMPS)


def keep_words(archive: Archive, lexicon: Lexicon) -> None:
    """The lexicon's names and families."""
    with archive.writing() as db:
        put_lexicon(db, lexicon, STAMPS.words)
