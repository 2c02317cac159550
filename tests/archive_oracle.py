"""What a search must find, worked out the slow way: every event looked at, every condition in Python."""

import re
from datetime import date

from hikite.archive import Archive, Query
from hikite.archive.folding import folded
from hikite.archive.kept import KeptEvent
from hikite.archive.searches.namings import naming
from hikite.archive.searches.queries import Conditions, Link

TALK = {"recalled", "supposed", "described", "denied"}
STANDS = {"leading": 1, "level": 0, "behind": -1}


class Oracle:
    """One archive with all its events in memory."""

    def __init__(self, archive: Archive) -> None:
        self.archive = archive
        self.events = tuple(archive.events())
        self.names = {(one.bout, one.side): one for one in archive.competitors()}
        self.people = dict(archive.db.execute("SELECT id, folded FROM people"))
        self.bouts = {bout.id: bout for bout in archive.bouts()}
        self.recordings = {one.id: one for one in archive.recordings()}
        statements = archive.db.execute("SELECT e.id, t.text FROM events e JOIN talk t ON t.id = e.statement")
        self.said = dict(statements.fetchall())

    def found(self, query: Query) -> list[int]:
        """The ids of all that meets the query, the newest day first, then in order."""
        hits = [
            event
            for event in self.events
            if self.meets(event, query)
            and self.recorded(event, query)
            and all(any(self.linked(event, other, link) for other in self.events) for link in query.links)
        ]
        return [event.id for event in sorted(hits, key=lambda event: (-self.day(event), event.id))]

    def day(self, event: KeptEvent) -> int:
        told = self.recordings[event.recording].date
        return date.fromisoformat(told).toordinal() if told else 0

    def recorded(self, event: KeptEvent, query: Query) -> bool:
        kept = self.recordings[event.recording]
        title = f" {folded(kept.title)}"
        return (
            query.ruleset in (None, self.bouts[event.bout].ruleset)
            and all(f" {word}" in title for word in folded(query.event).split())
            and (query.since is None or (bool(kept.date) and kept.date >= query.since))
            and (query.until is None or (bool(kept.date) and kept.date <= query.until))
        )

    def linked(self, event: KeptEvent, other: KeptEvent, link: Link) -> bool:
        early, late = (other, event) if link.relation == "after" else (event, other)
        return (
            event.bout == other.bout
            and early.id < late.id
            and early.moment != late.moment
            and (link.within_s is None or 0 <= late.start_ms - early.start_ms <= link.within_s * 1000)
            and (link.whose is None or (event.side is not None and other.side is not None))
            and (link.whose is None or (event.side == other.side) == (link.whose == "same"))
            and self.meets(other, link.step)
        )

    def meets(self, event: KeptEvent, asked: Conditions) -> bool:
        return all(self.checks(event, asked)) and not any(
            all(self.checks(event, one.model_copy(update={"told": True}), head=False))
            for one in asked.but_not
        )

    def checks(self, event: KeptEvent, asked: Conditions, head: bool = True):
        if asked.what:
            yield any(event.concept in naming(self.archive, name).meant for name in asked.what)
        yield event.kind in asked.kinds if asked.kinds else event.head or not head
        yield event.status in asked.status if asked.status else asked.told or event.status not in TALK
        yield asked.side in (None, event.side)
        for words, person in ((asked.by, event.person), (asked.against, event.opponent)):
            if words is not None:
                yield all(f" {word}" in f" {self.people.get(person, '')}" for word in folded(words).split())
        if asked.nation is not None:
            one = self.names.get((event.bout, event.side or ""))
            yield one is not None and folded(one.nation) == folded(asked.nation)
        if asked.holding:
            held = {grip for name in asked.holding for grip in naming(self.archive, name).meant}
            yield bool(held & set(event.grips))
        yield asked.scored in (None, event.scored)
        if asked.points is not None:
            brought = event.points if event.gained is None else event.gained
            yield event.scored and brought == asked.points
        yield asked.standing is None or event.standing == STANDS[asked.standing]
        yield asked.margin_least is None or (event.lead is not None and abs(event.lead) >= asked.margin_least)
        yield asked.margin_most is None or (event.lead is not None and abs(event.lead) <= asked.margin_most)
        if asked.clock_from_s is not None or asked.clock_to_s is not None:
            clock = event.clock_best_s
            yield clock is not None and (asked.clock_from_s or 0) <= clock <= (asked.clock_to_s or 9999)
            yield bool(event.golden) == bool(asked.golden)
        elif asked.golden is not None:
            yield bool(event.golden) == asked.golden
        yield asked.attempt in (None, event.attempt)
        if asked.sure is not None:
            yield event.confidence >= asked.sure
            if asked.side or asked.by or asked.against or asked.nation:
                yield event.side_confidence >= asked.sure
            if asked.status:
                yield event.status_confidence >= asked.sure
        for phrase in asked.said:
            words = re.findall(r"\w+", self.said.get(event.id, "").lower())
            wanted = re.findall(r"\w+", phrase.lower())
            yield any(words[at : at + len(wanted)] == wanted for at in range(len(words)))
