"""The machine's event behind an entry of a reading that people's decisions have changed."""

from collections.abc import Mapping

from hikite.archive.anchors import Attached, find_event
from hikite.archive.decisions import Anchor, Decision
from hikite.archive.folding import folded
from hikite.archive.kept import KeptEvent
from hikite.records import Event

NEAR_MS = 3_000
Origin = tuple[int | None, Decision | None]
"""The number of the machine's event, and the decision."""


class Untouched:
    """The machine's events in its own reading, where nobody decided on anything: each entry is one."""

    def __init__(self, numbers: Mapping[str, int]) -> None:
        self.numbers = numbers

    def of(self, entry: str, event: Event, words: str) -> Origin:
        """The machine's event that has this entry's id."""
        return self.numbers.get(entry), None


class Origins:
    """Which of the machine's events one of a changed reading goes back to, and what was decided on it."""

    def __init__(self, events: tuple[KeptEvent, ...], attached: tuple[Attached, ...]) -> None:
        self.events = events
        self.places: dict[tuple[int, str], list[KeptEvent]] = {}
        self.decided: dict[int, Decision] = {}
        self.added: list[Decision] = []
        for event in events:
            self._put(event.start_ms, event.kind, event)
        for one in attached:
            change, origin = one.decision.change, one.event
            if one.decision.kind == "add":
                self.added.append(one.decision)
            elif origin is not None and one.decision.kind != "reject":
                self.decided[origin.id] = one.decision
                self._put(change.start_ms or origin.start_ms, change.kind or origin.kind, origin)
                if origin.counts:
                    # A line of the score that nobody called is called by the person, at its end.
                    self._put(origin.end_ms, "score", origin)

    def _put(self, at_ms: int, kind: str, event: KeptEvent) -> None:
        there = self.places.setdefault((at_ms, kind), [])
        if event not in there:
            there.append(event)

    def of(self, entry: str, event: Event, words: str) -> Origin:
        """The machine's event and the latest decision on it; of what a person added, that decision alone."""
        added = next((one for one in self.added if _is(one, event, words)), None)
        if added is not None:
            return None, added
        origin = self._origin(event, words)
        return (origin.id, self.decided.get(origin.id)) if origin else (None, None)

    def _origin(self, event: Event, words: str) -> KeptEvent | None:
        there = self.places.get((event.start_ms, event.kind), [])
        if there:
            wanted = folded(words)
            return max(there, key=lambda one: (folded(one.words) == wanted, one.concept == event.concept))
        near = (one for one in self.events if abs(one.start_ms - event.start_ms) <= NEAR_MS)
        anchor = Anchor(
            sha256="",
            at_ms=event.start_ms,
            words=words,
            kind=event.kind,
            concept=event.concept,
            side=event.side,
        )
        return find_event(anchor, near)


def _is(added: Decision, event: Event, words: str) -> bool:
    """Whether an event is what a person added."""
    change = added.change
    at_ms = added.anchor.at_ms if change.start_ms is None else change.start_ms
    told = (at_ms, change.kind, folded(added.anchor.words) or folded(words))
    return told == (event.start_ms, event.kind, folded(words))
