"""Events to rows, with what a search asks of them worked out: score before, grips held, which try it was."""

from bisect import bisect_right
from collections.abc import Iterator

from hikite.archive.derivations.grips import Grips
from hikite.archive.derivations.moments import Part, parts_of
from hikite.archive.derivations.rows import EventRow
from hikite.archive.derivations.standings import Standing, standing
from hikite.outputs.entries import BoutEntries, BoutRecord, Entry
from hikite.outputs.phrases import score_words
from hikite.records import Bout, Event, Recording, Tally
from hikite.terms import Terms

TALK = frozenset({"recalled", "supposed", "described", "denied"})
"""Statuses of what was only spoken of."""
TRIES = frozenset({"attempted", "completed", "failed"})


def event_rows(recording: Recording, record: BoutRecord, terms: Terms) -> tuple[EventRow, ...]:
    """Every event of every bout, in the order of the record."""
    rows: list[EventRow] = []
    firsts = [said.first for said in recording.talk.utterances]
    for bout, told in zip(recording.ledger.bouts, record.bouts, strict=True):
        statements = [_statement(recording, event, firsts) for event in bout.events]
        rows += _Bout(bout, told, terms, statements, len(rows)).rows()
    return tuple(rows)


def _statement(recording: Recording, event: Event, firsts: list[int]) -> int | None:
    """The number, from 1, of the statement that the event's own words stand in."""
    if not event.claims:
        return None
    return bisect_right(firsts, recording.testimony.claims[event.claims[0]].first)


class _Bout:
    """One bout's events walked once in time order."""

    def __init__(
        self, bout: Bout, told: BoutEntries, terms: Terms, statements: list[int | None], before: int
    ) -> None:
        self.bout, self.told, self.terms, self.before = bout, told, terms, before
        self.statements = statements
        self.parts = parts_of(told, terms.same)
        self.grips = Grips(told.entries, statements)

    def rows(self) -> Iterator[EventRow]:
        score: dict[str, Tally] = {}
        tries: list[tuple[str, str]] = []
        previous: int | None = None
        for at, (event, entry) in enumerate(zip(self.bout.events, self.told.entries, strict=True)):
            part = self.parts[at]
            attempt = self._attempt(entry, part, tries)
            stand = standing(score, self.bout.sides, entry.side)
            yield self._row(at, event, entry, part, stand, attempt, previous, score)
            if part.head and entry.status not in TALK:
                previous = self.before + at + 1
            score = entry.score_after or score

    def _attempt(self, entry: Entry, part: Part, tries: list[tuple[str, str]]) -> int | None:
        """Which try of this technique, by any name, this is of this side."""
        counted = entry.kind in ("technique", "hold") and entry.status in TRIES and not entry.generic
        if not (counted and part.head and entry.side):
            return None
        tries.append((entry.side, entry.concept))
        return sum(side == entry.side and self.terms.same(one, entry.concept) for side, one in tries)

    def _row(
        self, at: int, event: Event, entry: Entry, part: Part, stand: Standing, attempt: int | None,
        previous: int | None, score: dict[str, Tally],
    ) -> EventRow:  # fmt: skip
        clock, sides = entry.clock, self.bout.sides
        return EventRow(
            place=self.before + at + 1, bout=self.bout.number, number=at + 1,
            start_ms=entry.start_ms, end_ms=entry.end_ms, kind=entry.kind, concept=entry.concept,
            status=entry.status, side=entry.side, generic=entry.generic, attributes=barred(entry.attributes),
            counts=entry.counts, points=entry.points, score_class=entry.score_class, seconds=entry.seconds,
            fell=entry.fell, unspoken=entry.unspoken, rule_row=entry.row,
            clock_low_s=clock.low_s if clock else None, clock_high_s=clock.high_s if clock else None,
            clock_best_s=clock.best_s if clock else None, golden=clock.golden if clock else None,
            confidence=entry.confidence, side_confidence=entry.side_confidence,
            status_confidence=entry.status_confidence, statement=self.statements[at],
            words=entry.quotes[0].words if entry.quotes else "",
            head=part.head, moment=self.before + part.opens + 1, gained=part.gained,
            gained_class=part.gained_class,
            scored=part.gained is not None or part.gained_class is not None or _is_score(entry),
            landing=part.landing,
            own_before=stand.own, other_before=stand.other, lead=stand.lead, standing=stand.sign,
            score_before=score_words(score, sides) if score else None,
            score_after=score_words(entry.score_after, sides) if entry.score_after else None,
            grips=barred(self.grips.held(at)), attempt=attempt, previous=previous,
        )  # fmt: skip


def _is_score(entry: Entry) -> bool:
    return entry.kind == "score" and entry.counts


def barred(names: tuple[str, ...]) -> str:
    """Several names in one column, each between bars, so that a whole name can be looked for."""
    return f"|{'|'.join(names)}|" if names else ""
