"""A recording laid out for reading: the talk as verses, what was read from it as notes beside them."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator

from hikite.archive.anchors import Attached
from hikite.outputs import record_of
from hikite.outputs.entries import BoutEntries, Entry
from hikite.outputs.labels import shown_name
from hikite.outputs.phrases import (
    clock_words,
    percent,
    score_words,
    stamp,
    value_words,
    winner_words,
)
from hikite.process import Lexicon
from hikite.records import Event, Recording
from hikite.web.origins import Origins, Untouched
from hikite.web.verses import Chapter, Note, Party, Run, Struck, Verse, Word, grade_of
from hikite.web.wordings import DONE, STRUCK, chance_of, how_of, pieces_of, what_of, words_of

QUIET = frozenset({"clock", "stoppage", "stated_score", "position", "principle"})
"""Kinds that mark the words but, unless asked for, need no note of their own."""
_FIRST = {"score": 0, "penalty": 1, "technique": 2, "hold": 3, "grip": 4}
Told = list[tuple[Event, Entry]]


def laid_out(
    recording: Recording,
    lexicon: Lexicon,
    attached: tuple[Attached, ...] = (),
    origins: Origins | Untouched | None = None,
) -> tuple[Chapter, ...]:
    """The chapters of a recording, one a bout; the whole talk as one chapter where no bout was found.

    ``attached`` are the decisions it has in it, ``origins`` tell each entry's event of the machine.
    """
    return _Layout(recording, lexicon, attached, origins or Untouched({})).chapters()


class _Layout:
    def __init__(
        self,
        recording: Recording,
        lexicon: Lexicon,
        attached: tuple[Attached, ...],
        origins: Origins | Untouched,
    ) -> None:
        self.recording, self.lexicon, self.attached = recording, lexicon, attached
        self.origins = origins
        self.record = record_of(recording, lexicon)
        self.talk = recording.talk
        self.firsts = [said.first for said in self.talk.utterances]
        self.starts = [self.talk.tokens[first].start_ms for first in self.firsts]
        self.pieces = pieces_of(recording)
        self.glued = tuple(token.glued for token in self.talk.tokens)

    def chapters(self) -> tuple[Chapter, ...]:
        bouts = self.recording.ledger.bouts
        if not bouts:
            return (self._bare(),)
        begins = [bisect_left(self.starts, bout.start_ms) for bout in bouts[1:]]
        borders = [0, *begins, len(self.firsts)]
        return tuple(
            self._chapter(told, list(zip(bout.events, told.entries, strict=True)), borders[n], borders[n + 1])
            for n, (bout, told) in enumerate(zip(bouts, self.record.bouts, strict=True))
        )

    def _bare(self) -> Chapter:
        verses = tuple(self._verses(0, len(self.firsts), [], None))
        return Chapter(
            number=0, parties=(), ruleset="", result="", final="", classes=(), start_ms=0, verses=verses,
            clashes=(), warnings=(),
        )  # fmt: skip

    def _chapter(self, told: BoutEntries, entries: Told, first: int, stop: int) -> Chapter:
        rules = self.lexicon.rulesets.rulesets.get(told.ruleset)
        return Chapter(
            number=told.number,
            parties=tuple(
                Party(side=one.side, name=shown_name(one) or one.side.capitalize(), nation=one.nation or "")
                for one in told.competitors
            ),
            ruleset=rules.name if rules else told.ruleset,
            result=winner_words(told),
            final=score_words(told.final, told.sides),
            classes=rules.classes if rules else (),
            start_ms=told.start_ms,
            verses=tuple(self._verses(first, stop, entries, told)),
            clashes=tuple((clash.at_ms, clash.problem) for clash in told.contradictions),
            warnings=told.warnings,
        )

    def _verses(self, first: int, stop: int, entries: Told, bout: BoutEntries | None) -> Iterator[Verse]:
        here: dict[int, Told] = {}
        for event, entry in entries:
            here.setdefault(min(max(self._verse_of(event), first), stop - 1), []).append((event, entry))
        score, speaker = "", None
        for number in range(first, stop):
            said, at, mine = self.talk.utterances[number], self.starts[number], here.get(number, [])
            end = self.starts[number + 1] if number + 1 < len(self.starts) else 1 << 60
            notes = tuple(self._note(event, entry, bout) for event, entry in mine)
            before, score = score, next((note.score for note in reversed(notes) if note.score), score)
            yield Verse(
                number=number,
                at_ms=at,
                time=stamp(at),
                clock=next((clock_words(entry.clock) for _, entry in mine if entry.clock), ""),
                speaker=said.speaker or "",
                runs=tuple(self._runs(said.first, said.stop, mine)),
                notes=notes,
                struck=tuple(self._struck(at if number else 0, end)),
                score=score,
                scored=score != before,
                opens=bool(said.speaker) and (number == first or speaker != said.speaker),
            )
            speaker = said.speaker

    def _verse_of(self, event: Event) -> int:
        if event.claims:
            return bisect_right(self.firsts, self._own(event)[0]) - 1
        return max(bisect_right(self.starts, event.start_ms) - 1, 0)

    def _own(self, event: Event) -> tuple[int, int]:
        """The tokens of the entry's own words."""
        claims = [self.recording.testimony.claims[n] for n in event.claims]
        own = next((claim for claim in claims if claim.kind == event.kind), claims[0])
        return own.first, own.stop

    def _runs(self, first: int, stop: int, mine: Told) -> Iterator[Run]:
        marks: dict[int, tuple[int, Event, Entry]] = {}
        for event, entry in sorted(mine, key=lambda one: (_FIRST.get(one[0].kind, 9), not one[0].counts)):
            if event.claims:
                begin, end = self._own(event)
                if begin >= first and not any(b < end and begin < e for b, (e, _, _) in marks.items()):
                    marks[begin] = (min(end, stop), event, entry)
        plain = first
        for at, (end, event, entry) in sorted(marks.items()):
            if plain < at:
                yield Run(words=self._words(plain, at))
            yield Run(
                words=self._words(at, end),
                entry=entry.id,
                number=int(entry.id.split(".")[1]),
                kind=event.kind,
                grade="vouched" if self._vouched(event) else grade_of(chance_of(entry)),
                quiet=event.kind in QUIET and not event.counts,
            )
            plain = end
        if plain < stop:
            yield Run(words=self._words(plain, stop))

    def _words(self, first: int, stop: int) -> tuple[Word, ...]:
        return words_of(self.pieces, self.glued, first, stop)

    def _vouched(self, event: Event) -> bool:
        return any(self.recording.testimony.claims[n].vouched for n in event.claims)

    def _note(self, event: Event, entry: Entry, bout: BoutEntries | None) -> Note:
        chance, vouched = chance_of(entry), self._vouched(event)
        words = entry.quotes[0].words if entry.quotes else ""
        origin, made = self.origins.of(entry.id, event, words)
        return Note(
            entry=entry.id,
            number=int(entry.id.split(".")[1]),
            event=origin,
            start_ms=entry.start_ms,
            end_ms=entry.end_ms,
            words=words,
            kind=entry.kind,
            concept=entry.concept,
            who=entry.competitor or (entry.side or "").capitalize(),
            short=_last(entry, bout),
            side=entry.side or "",
            what=what_of(entry),
            how=how_of(entry),
            status=entry.status,
            value=value_words(entry) if entry.counts or entry.kind == "score" else "",
            points=entry.points,
            score_class=entry.score_class,
            score=score_words(entry.score_after, bout.sides) if bout and entry.counts else "",
            grade="vouched" if vouched else grade_of(chance),
            sure="checked" if vouched else f"{grade_of(chance)}, {percent(chance)}",
            chance=1.0 if vouched else chance,
            quiet=entry.kind in QUIET and not entry.counts,
            counts=entry.counts,
            unspoken=entry.unspoken,
            decided=f"{DONE[made.kind]} by {made.reviewer}" if made else "",
            decision=made.id if made else None,
        )

    def _struck(self, at: int, end: int) -> Iterator[Struck]:
        for one in self.attached:
            decision = one.decision
            if at <= decision.anchor.at_ms < end and decision.kind in STRUCK and not one.adrift:
                label = decision.anchor.words or decision.anchor.concept or ""
                says = STRUCK[decision.kind].format(f"“{label}”" if label else "an entry")
                at_ms = decision.anchor.at_ms
                yield Struck(at_ms=at_ms, says=says, decision=decision.id, who=decision.reviewer)


def _last(entry: Entry, bout: BoutEntries | None) -> str:
    """The last of the name of whose it is, the whole of it where the other's ends alike."""
    name = entry.competitor
    if not name or bout is None:
        return (entry.side or "").capitalize()
    names = [one.name.split()[-1] for one in bout.competitors if one.name]
    last = name.split()[-1]
    return name if names.count(last) > 1 else last
