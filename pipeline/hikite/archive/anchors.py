"""Decisions found again on the events of a new reading, and reviewers compared."""

from collections.abc import Iterable

from pydantic import BaseModel

from hikite.archive.decisions import Anchor, Decision, decisions_of
from hikite.archive.errors import ArchiveError
from hikite.archive.folding import folded
from hikite.archive.kept import KeptEvent
from hikite.archive.stores import Archive

NEAR_MS = 3_000
"""An event may have moved so far and still be the one that was meant."""


class Attached(BaseModel, frozen=True, extra="forbid"):
    """A decision and the event it is about now; without one it is of no event, or adrift."""

    decision: Decision
    event: KeptEvent | None

    @property
    def adrift(self) -> bool:
        """Whether it was made on an event that is not found any more."""
        return self.event is None and self.decision.anchor.kind is not None


class Compared(BaseModel, frozen=True, extra="forbid"):
    """What two reviewers last decided on one event, or at one place without one."""

    event: KeptEvent | None
    one: Decision | None
    other: Decision | None

    @property
    def agree(self) -> bool | None:
        """Whether both say the same; None where only one has spoken."""
        if self.one is None or self.other is None:
            return None
        same = self.one.kind == self.other.kind
        return same and _said(self.one) == _said(self.other)


def anchor_of(archive: Archive, event: int) -> Anchor:
    """What a decision on this event hangs on; ArchiveError where there is no such event."""
    row = archive.db.execute(
        "SELECT r.sha256, e.start_ms, e.words, e.kind, e.concept, e.side"
        " FROM events e JOIN recordings r ON r.id = e.recording WHERE e.id = ?",
        (event,),
    ).fetchone()
    if row is None:
        raise ArchiveError(f"there is no event {event}")
    return Anchor.model_validate(dict(zip(Anchor.model_fields, row, strict=True)))


def attach(
    archive: Archive, recording: int, reviewer: str | None = None, *, undone: bool = False
) -> tuple[Attached, ...]:
    """Every decision on a recording with the event it is about in the reading of today."""
    events = tuple(archive.events(recording))
    made = decisions_of(archive, recording, reviewer, undone=undone)
    return tuple(Attached(decision=one, event=find_event(one.anchor, events)) for one in made)


def find_event(anchor: Anchor, events: Iterable[KeptEvent]) -> KeptEvent | None:
    """The event that an anchor means: near in time and of like words; else the only one of its words."""
    if anchor.kind is None:
        return None
    alike = [event for event in events if _alike(anchor, event)]
    near = [event for event in alike if abs(event.start_ms - anchor.at_ms) <= NEAR_MS]
    if near:
        return max(near, key=lambda event: _likeness(anchor, event))
    words = folded(anchor.words)
    exact = [event for event in alike if folded(event.words) == words and event.side == anchor.side]
    return exact[0] if len(exact) == 1 and " " in words else None


def compare(archive: Archive, recording: int, one: str, other: str) -> tuple[Compared, ...]:
    """What two reviewers last decided on a recording, event by event in time order."""
    latest: dict[tuple[str, int], list[Decision | None]] = {}
    places: dict[tuple[str, int], KeptEvent | None] = {}
    for number, reviewer in enumerate((one, other)):
        for found in attach(archive, recording, reviewer):
            anchor = found.decision.anchor
            where = ("event", found.event.id) if found.event else (anchor.words, anchor.at_ms)
            places[where] = found.event
            latest.setdefault(where, [None, None])[number] = found.decision
    compared = [Compared(event=places[where], one=pair[0], other=pair[1]) for where, pair in latest.items()]
    return tuple(sorted(compared, key=_time))


def _time(pair: Compared) -> int:
    decision = pair.one or pair.other
    return pair.event.start_ms if pair.event else decision.anchor.at_ms if decision else 0


def _said(decision: Decision) -> dict[str, object]:
    given = {name: value for name, value in decision.change.given.items() if name != "note"}
    return {**given, "at": decision.anchor.at_ms} if decision.kind in ("split", "merge", "add") else given


def _alike(anchor: Anchor, event: KeptEvent) -> bool:
    if event.kind != anchor.kind:
        return False
    one, two = set(folded(anchor.words).split()), set(folded(event.words).split())
    return bool(one & two) or (not (one or two) and event.concept == anchor.concept)


def _likeness(anchor: Anchor, event: KeptEvent) -> tuple[int, int]:
    points = 4 * (folded(event.words) == folded(anchor.words))
    points += 2 * (event.concept == anchor.concept) + (event.side == anchor.side)
    return points, -abs(event.start_ms - anchor.at_ms)
