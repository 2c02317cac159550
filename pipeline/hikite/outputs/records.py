"""A recording's ledger to its published record."""

from pathlib import PurePath

from hikite import __version__
from hikite.outputs.entries import BoutEntries, BoutRecord, Clash, Entry, Quote, Reading, Span
from hikite.outputs.labels import Labels, capitalised, shown_name
from hikite.process import Lexicon
from hikite.records import Bout, Candidate, Claim, Contradiction, Event, Recording

_SAME = (
    "start_ms", "end_ms", "clock", "side", "kind", "concept", "generic", "attributes", "status", "counts",
    "points", "score_class", "stated", "seconds", "elapsed", "of", "fell", "score_after", "row", "unspoken",
)  # fmt: skip


def record_of(recording: Recording, lexicon: Lexicon, least: float = 0.0) -> BoutRecord:
    """The record of one recording, without the entries less sure than ``least``; lines of the score stay."""
    return _Recorder(recording, lexicon, least).record()


class _Recorder:
    """Turns events into entries: claims become quotes, indexes become ids, concepts get labels."""

    def __init__(self, recording: Recording, lexicon: Lexicon, least: float) -> None:
        self.recording, self.least = recording, least
        self.labels = Labels(lexicon.terms, lexicon.language)
        self.name = PurePath(recording.transcript.source).name
        self.ids = _ids(recording.ledger.bouts)
        self.statement = [
            number
            for number, said in enumerate(recording.talk.utterances)
            for _ in range(said.first, said.stop)
        ]

    def record(self) -> BoutRecord:
        transcript, sheet = self.recording.transcript, self.recording.testimony.sheet
        return BoutRecord(
            tool=__version__,
            lexicon=self.recording.lexicon,
            recording=self.name,
            sha256=transcript.sha256,
            format=transcript.format,
            encoding=transcript.encoding,
            language=transcript.language,
            duration_ms=transcript.duration_ms,
            title=sheet.title,
            date=sheet.date,
            address=sheet.address,
            mendings=tuple(f"{one.file}:{one.line}: {one.problem}" for one in transcript.mendings),
            bouts=tuple(self._bout(bout) for bout in self.recording.ledger.bouts),
        )

    def _bout(self, bout: Bout) -> BoutEntries:
        entries = (self._entry(bout, number, event) for number, event in enumerate(bout.events, 1))
        return BoutEntries(
            number=bout.number,
            ruleset=bout.ruleset,
            ruleset_confidence=bout.ruleset_confidence,
            sides=bout.sides,
            competitors=tuple(
                one.model_copy(update={"name": shown_name(one), "nation": capitalised(one.nation)})
                for one in bout.competitors
            ),
            start_ms=bout.start_ms,
            end_ms=bout.end_ms,
            final=bout.final,
            final_confidence=round(bout.final_confidence, 4),
            result=bout.result,
            contradictions=tuple(map(self._clash, bout.contradictions)),
            warnings=bout.warnings,
            other_finals=bout.other_finals,
            entries=tuple(entry for entry in entries if entry.counts or entry.confidence >= self.least),
        )

    def _entry(self, bout: Bout, number: int, event: Event) -> Entry:
        fighters = {one.side: shown_name(one) for one in bout.competitors}
        return Entry(
            tool=__version__,
            lexicon=self.recording.lexicon,
            recording=self.name,
            sha256=self.recording.transcript.sha256,
            bout=bout.number,
            ruleset=bout.ruleset,
            id=f"b{bout.number}.{number}",
            competitor=fighters.get(event.side) if event.side else None,
            label=self.labels.of(event.concept),
            alternatives=tuple(map(self._reading, event.alternatives)),
            confidence=round(event.confidence, 4),
            side_confidence=round(event.side_confidence, 4),
            status_confidence=round(event.status_confidence, 4),
            reasons=event.reasons,
            quotes=tuple(self._quote(self._claim(claim)) for claim in event.claims),
            counters=self._id(event.counters),
            after=self._id(event.after),
            repeats=self._id(event.repeats),
            **{name: getattr(event, name) for name in _SAME},
        )

    def _claim(self, index: int) -> Claim:
        return self.recording.testimony.claims[index]

    def _id(self, claim: int | None) -> str | None:
        return None if claim is None else self.ids.get(claim)

    def _reading(self, other: Candidate) -> Reading:
        return Reading(
            concept=other.concept,
            label=self.labels.of(other.concept),
            probability=round(other.probability, 4),
            form=other.form,
            how=other.how,
        )

    def _clash(self, clash: Contradiction) -> Clash:
        return Clash(
            at_ms=clash.at_ms,
            problem=clash.problem,
            quotes=tuple(self._quote(self._claim(claim)) for claim in clash.claims),
            entries=tuple(dict.fromkeys(self.ids[claim] for claim in clash.claims if claim in self.ids)),
        )

    def _quote(self, claim: Claim) -> Quote:
        said = self.recording.talk.utterances[self.statement[claim.first]]
        last = self.recording.talk.utterances[self.statement[claim.stop - 1]]
        spans = self._spans(claim.first, claim.stop)
        return Quote(
            words=self._text(spans),
            spans=spans,
            statement=self._text(self._spans(said.first, last.stop)),
            speaker=said.speaker,
            start_ms=claim.start_ms,
            end_ms=claim.end_ms,
        )

    def _spans(self, first: int, stop: int) -> tuple[Span, ...]:
        """The characters of a token range, cue by cue."""
        reach: dict[int, tuple[int, int]] = {}
        for token in self.recording.talk.tokens[first:stop]:
            start, end = reach.get(token.cue, (token.start, token.stop))
            reach[token.cue] = min(start, token.start), max(end, token.stop)
        return tuple(Span(cue=cue, start=start, stop=end) for cue, (start, end) in reach.items())

    def _text(self, spans: tuple[Span, ...]) -> str:
        cues = self.recording.transcript.cues
        return " ".join(cues[span.cue].text[span.start : span.stop] for span in spans)


def _ids(bouts: tuple[Bout, ...]) -> dict[int, str]:
    """By claim the id of the entry that tells of it: the one made of it alone, else the first it is in."""
    ids: dict[int, str] = {}
    for bout in bouts:
        told = [(f"b{bout.number}.{number}", event.claims) for number, event in enumerate(bout.events, 1)]
        for id_, claims in sorted(told, key=lambda one: len(one[1]) > 1):
            for claim in claims:
                ids.setdefault(claim, id_)
    return ids
