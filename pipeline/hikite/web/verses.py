"""A recording laid out for reading: the talk as verses, what was read from it as notes beside them."""

from collections.abc import Iterator
from typing import Literal

from pydantic import BaseModel

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
from hikite.records import Event, Recording, Talk

Grade = Literal["vouched", "sure", "likely", "doubtful", "guess"]
_GRADES: tuple[tuple[float, Grade], ...] = ((0.9, "sure"), (0.75, "likely"), (0.5, "doubtful"))
_QUIET = frozenset({"clock", "stoppage", "stated_score", "position", "principle"})
"""Kinds that mark the words but, unless asked for, need no note of their own."""


class Word(BaseModel, frozen=True, extra="forbid"):
    """A word as written, with what stands behind it up to the next, and when it was said."""

    text: str
    at_ms: int


class Run(BaseModel, frozen=True, extra="forbid"):
    """Words in a row; those of one entry carry its id, kind and how sure it is."""

    words: tuple[Word, ...]
    entry: str | None = None
    kind: str = ""
    grade: Grade = "sure"


class Note(BaseModel, frozen=True, extra="forbid"):
    """What the margin says of one entry. ``sure`` is in words, ``score`` empty where it did not change.

    ``decided`` tells by whom and how it was decided on, ``decision`` the number to take that back by.
    """

    entry: str
    number: int
    start_ms: int
    end_ms: int
    words: str
    kind: str
    concept: str
    who: str
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
    decided: str = ""
    decision: int | None = None


class Struck(BaseModel, frozen=True, extra="forbid"):
    """An entry that a person struck out, or a bout border they set: told where it stood."""

    at_ms: int
    says: str
    decision: int
    who: str


class Verse(BaseModel, frozen=True, extra="forbid"):
    """One statement with its time, the match clock where it is known, and its notes."""

    number: int
    at_ms: int
    time: str
    clock: str
    speaker: str
    runs: tuple[Run, ...]
    notes: tuple[Note, ...]
    struck: tuple[Struck, ...]
    score: str


class Chapter(BaseModel, frozen=True, extra="forbid"):
    """One bout: its heading and its verses."""

    number: int
    names: tuple[tuple[str, str, str], ...]
    ruleset: str
    result: str
    final: str
    verses: tuple[Verse, ...]
    clashes: tuple[tuple[int, str], ...]
    warnings: tuple[str, ...]


def laid_out(
    recording: Recording, lexicon: Lexicon, attached: tuple[Attached, ...] = ()
) -> tuple[Chapter, ...]:
    """The chapters of a recording, one a bout; the whole talk as one chapter where no bout was found."""
    return _Layout(recording, lexicon, attached).chapters()


def grade_of(confidence: float) -> Grade:
    """How sure, in one of four words."""
    return next((name for least, name in _GRADES if confidence >= least), "guess")


class _Layout:
    def __init__(self, recording: Recording, lexicon: Lexicon, attached: tuple[Attached, ...]) -> None:
        self.recording, self.lexicon, self.attached = recording, lexicon, attached
        self.record = record_of(recording, lexicon)
        self.talk = recording.talk
        self.said_in = [n for n, one in enumerate(self.talk.utterances) for _ in range(one.first, one.stop)]

    def chapters(self) -> tuple[Chapter, ...]:
        bouts = self.recording.ledger.bouts
        if not bouts:
            verses = tuple(self._verses(0, len(self.talk.utterances), [], None))
            return (
                Chapter(
                    number=0,
                    names=(),
                    ruleset="",
                    result="",
                    final="",
                    verses=verses,
                    clashes=(),
                    warnings=(),
                ),
            )
        borders = [0, *(self._statement_at(bout.start_ms) for bout in bouts[1:]), len(self.talk.utterances)]
        return tuple(
            self._chapter(told, list(bout.events), borders[n], borders[n + 1])
            for n, (bout, told) in enumerate(zip(bouts, self.record.bouts, strict=True))
        )

    def _statement_at(self, at_ms: int) -> int:
        tokens = self.talk.tokens
        return next(
            (n for n, one in enumerate(self.talk.utterances) if tokens[one.first].start_ms >= at_ms),
            len(self.talk.utterances),
        )

    def _chapter(self, told: BoutEntries, events: list[Event], first: int, stop: int) -> Chapter:
        rules = self.lexicon.rulesets.rulesets.get(told.ruleset)
        entries = list(zip(events, told.entries, strict=True))
        return Chapter(
            number=told.number,
            names=tuple(
                (one.side, shown_name(one) or one.side.capitalize(), one.nation or "")
                for one in told.competitors
            ),
            ruleset=rules.name if rules else told.ruleset,
            result=winner_words(told),
            final=score_words(told.final, told.sides),
            verses=tuple(self._verses(first, stop, entries, told)),
            clashes=tuple((clash.at_ms, clash.problem) for clash in told.contradictions),
            warnings=told.warnings,
        )

    def _verses(
        self, first: int, stop: int, entries: list[tuple[Event, Entry]], bout: BoutEntries | None
    ) -> Iterator[Verse]:
        here: dict[int, list[tuple[Event, Entry]]] = {}
        for event, entry in entries:
            here.setdefault(min(max(self._statement_of(event), first), stop - 1), []).append((event, entry))
        score = ""
        for number in range(first, stop):
            said = self.talk.utterances[number]
            mine = here.get(number, [])
            notes = tuple(self._note(event, entry, bout) for event, entry in mine)
            score = next((note.score for note in reversed(notes) if note.score), score)
            at, end = self.talk.tokens[said.first].start_ms, self._ends(number)
            clocks = [clock_words(entry.clock) for _, entry in mine if entry.clock]
            yield Verse(
                number=number,
                at_ms=at,
                time=stamp(at),
                clock=clocks[0] if clocks else "",
                speaker=said.speaker or "",
                runs=tuple(self._runs(said.first, said.stop, mine)),
                notes=notes,
                struck=tuple(self._struck(at, end)),
                score=score,
            )

    def _ends(self, number: int) -> int:
        following = self.talk.utterances[number + 1 : number + 2]
        return self.talk.tokens[following[0].first].start_ms if following else 1 << 60

    def _statement_of(self, event: Event) -> int:
        if event.claims:
            return self.said_in[self._own(event)[0]]
        return max(self._statement_at(event.start_ms + 1) - 1, 0)

    def _own(self, event: Event) -> tuple[int, int]:
        """The tokens of the entry's own words."""
        claims = [self.recording.testimony.claims[n] for n in event.claims]
        own = next((claim for claim in claims if claim.kind == event.kind), claims[0])
        return own.first, own.stop

    def _runs(self, first: int, stop: int, mine: list[tuple[Event, Entry]]) -> Iterator[Run]:
        marks: dict[int, tuple[int, Event, Entry]] = {}
        for event, entry in sorted(mine, key=lambda one: (one[0].kind in _QUIET, not one[0].counts)):
            if event.claims:
                begin, end = self._own(event)
                if begin >= first and not any(b < end and begin < e for b, (e, _, _) in marks.items()):
                    marks[begin] = (min(end, stop), event, entry)
        at, plain = first, first
        while at < stop:
            if at not in marks:
                at += 1
                continue
            end, event, entry = marks[at]
            if plain < at:
                yield Run(words=tuple(_words(self.recording, self.talk, plain, at)))
            yield Run(
                words=tuple(_words(self.recording, self.talk, at, end)),
                entry=entry.id,
                kind=event.kind,
                grade="vouched" if self._vouched(event) else grade_of(entry.confidence),
            )
            at = plain = end
        if plain < stop:
            yield Run(words=tuple(_words(self.recording, self.talk, plain, stop)))

    def _vouched(self, event: Event) -> bool:
        return any(self.recording.testimony.claims[n].vouched for n in event.claims)

    def _note(self, event: Event, entry: Entry, bout: BoutEntries | None) -> Note:
        vouched = self._vouched(event)
        chance = _chance(entry)
        made = self._decision_on(event)
        value = value_words(entry) if entry.counts or entry.kind == "score" else ""
        return Note(
            entry=entry.id,
            number=int(entry.id.split(".")[1]),
            start_ms=entry.start_ms,
            end_ms=entry.end_ms,
            words=self.talk.words(*self._own(event)) if event.claims else "",
            kind=entry.kind,
            concept=entry.concept,
            who=entry.competitor or (entry.side or "").capitalize(),
            side=entry.side or "",
            what=_what(entry),
            how=_how(entry),
            status=entry.status,
            value=value,
            points=entry.points,
            score_class=entry.score_class,
            score=score_words(entry.score_after, bout.sides) if bout and entry.counts else "",
            grade="vouched" if vouched else grade_of(chance),
            sure="checked by a person" if vouched else f"{grade_of(chance)}, {percent(chance)}",
            chance=chance,
            quiet=entry.kind in _QUIET and not entry.counts,
            counts=entry.counts,
            decided=f"{_DONE[made.decision.kind]} by {made.decision.reviewer}" if made else "",
            decision=made.decision.id if made else None,
        )

    def _decision_on(self, event: Event) -> Attached | None:
        """The latest decision about this very place and kind."""
        for one in reversed(self.attached):
            decision = one.decision
            if decision.kind in ("accept", "correct", "same", "add"):
                kind = decision.change.kind or decision.anchor.kind
                words = decision.anchor.words.replace("-", " ").replace("'", " '").casefold()
                near = abs(decision.anchor.at_ms - event.start_ms) <= 1_500
                if near and kind == event.kind and (not event.claims or self._same_words(words, event)):
                    return one
        return None

    def _same_words(self, words: str, event: Event) -> bool:
        own = self.talk.words(*self._own(event))
        return not words or bool(set(words.split()) & set(own.split()))

    def _struck(self, at: int, end: int) -> Iterator[Struck]:
        for one in self.attached:
            decision = one.decision
            if at <= decision.anchor.at_ms < end and decision.kind in _STRUCK:
                label = decision.anchor.words or decision.anchor.concept or ""
                says = _STRUCK[decision.kind].format(f"“{label}”" if label else "an entry")
                yield Struck(
                    at_ms=decision.anchor.at_ms, says=says, decision=decision.id, who=decision.reviewer
                )


_DONE = {"accept": "accepted", "correct": "corrected", "same": "told again, says a note", "add": "added"}
_STRUCK = {
    "reject": "{} struck out",
    "split": "a bout begins here",
    "merge": "no bout begins here",
}


def _chance(entry: Entry) -> float:
    """P(the whole of what the note says): as entered, and of its side and status."""
    chance = entry.confidence
    if not entry.counts:
        chance *= entry.status_confidence
        chance *= entry.side_confidence if entry.side else 1.0
    return chance


def _what(entry: Entry) -> str:
    if entry.kind == "stated_score":
        return "score stated"
    if entry.kind == "clock":
        return f"clock {stamp((entry.seconds or 0) * 1000)}{' gone' if entry.elapsed else ''}"
    if entry.kind == "score" and entry.concept in ("points", entry.score_class):
        return "score"
    if entry.kind == "result":
        return f"win: {entry.label}"
    named = set(entry.label.replace("-", " ").split())
    qualities = [one.replace("-", " ") for one in entry.attributes if not named & set(one.split("-"))]
    return " ".join([*(one for one in qualities if ":" not in one), entry.label])


def _how(entry: Entry) -> str:
    parts = [entry.status] if entry.kind not in ("score", "clock", "stated_score") or not entry.counts else []
    if entry.unspoken:
        parts.append("not heard called")
    if entry.fell is not None:
        parts.append("thrower down" if entry.fell else "thrower stayed up")
    return ", ".join(parts)


def _words(recording: Recording, talk: Talk, first: int, stop: int) -> Iterator[Word]:
    """The written words of a token range: pieces of one word together, punctuation and spaces behind."""
    cues = recording.transcript.cues
    text, at = "", talk.tokens[first].start_ms if first < stop else 0
    for index in range(first, stop):
        token = talk.tokens[index]
        following = talk.tokens[index + 1] if index + 1 < len(talk.tokens) else None
        whole = cues[token.cue].text
        same = following is not None and following.cue == token.cue
        behind = whole[token.stop : following.start] if same and following else whole[token.stop :] + " "
        text += whole[token.start : token.stop] + " ".join(behind.split("\n"))
        if following is None or not following.glued or index + 1 == stop:
            yield Word(text=text, at_ms=at)
            text, at = "", following.start_ms if following else at
