"""A recording to its rows."""

from datetime import date

from hikite.archive.derivations.events import event_rows
from hikite.archive.derivations.rows import BoutRow, CompetitorRow, Derived, RecordingRow, StatementRow
from hikite.archive.folding import folded
from hikite.archive.parts import pack
from hikite.outputs import record_of
from hikite.outputs.entries import BoutEntries
from hikite.outputs.phrases import score_words
from hikite.process import Lexicon
from hikite.records import Recording, Sheet


def derived_of(recording: Recording, told: Sheet, path: str, lexicon: Lexicon) -> Derived:
    """All rows of a recording; ``told`` is its bout sheet as given."""
    record = record_of(recording, lexicon)
    transcript, sheet = recording.transcript, recording.testimony.sheet
    return Derived(
        path=path,
        recording=RecordingRow(
            sha256=transcript.sha256,
            title=sheet.title,
            folded_title=folded(sheet.title),
            date=sheet.date,
            day=day_of(sheet.date),
            address=sheet.address,
            format=transcript.format,
            encoding=transcript.encoding,
            language=transcript.language,
            duration_ms=transcript.duration_ms,
            cues=len(transcript.cues),
            sheet=told.model_dump_json(exclude_defaults=True),
            ruleset=told.ruleset,
        ),
        parts=pack(recording),
        lexicon=recording.lexicon,
        talk=_statements(recording),
        bouts=tuple(_bout(bout, told, lexicon) for bout in record.bouts),
        competitors=tuple(
            CompetitorRow(bout.number, one.side, one.name, one.nation)
            for bout in record.bouts
            for one in bout.competitors
        ),
        events=event_rows(recording, record, lexicon.terms),
    )


def day_of(text: str | None) -> int:
    """The day as a number, 0 where none is known."""
    try:
        return date.fromisoformat(text).toordinal() if text else 0
    except ValueError:
        return 0


def _bout(bout: BoutEntries, told: Sheet, lexicon: Lexicon) -> BoutRow:
    rules = lexicon.rulesets.rulesets.get(bout.ruleset)
    lasts = told.duration_s or (rules.durations[0].seconds if rules and rules.durations else None)
    return BoutRow(
        number=bout.number,
        ruleset=bout.ruleset,
        ruleset_confidence=bout.ruleset_confidence,
        first_side=bout.sides[0],
        second_side=bout.sides[1],
        start_ms=bout.start_ms,
        end_ms=bout.end_ms,
        duration_s=lasts,
        final=score_words(bout.final, bout.sides),
        final_confidence=bout.final_confidence,
        winner=bout.result.winner,
        won_by=bout.result.by,
        result_confidence=bout.result.confidence,
    )


def _statements(recording: Recording) -> tuple[StatementRow, ...]:
    """Every statement with its words as written; it may run over several cues."""
    tokens, cues, rows = recording.talk.tokens, recording.transcript.cues, []
    for number, said in enumerate(recording.talk.utterances, 1):
        reach: dict[int, tuple[int, int]] = {}
        for token in tokens[said.first : said.stop]:
            start, stop = reach.get(token.cue, (token.start, token.stop))
            reach[token.cue] = min(start, token.start), max(stop, token.stop)
        if not reach:
            continue
        text = " ".join(cues[cue].text[start:stop] for cue, (start, stop) in reach.items())
        first, last = tokens[said.first], tokens[said.stop - 1]
        rows.append(StatementRow(number, first.start_ms, last.end_ms, said.speaker, text))
    return tuple(rows)
