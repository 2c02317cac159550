"""Markdown: the bout sheet to paste into a report."""

import re
from collections.abc import Sequence

from hikite.outputs.entries import BoutEntries, BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.moments import moments_of
from hikite.outputs.phrases import (
    CAUTION,
    SHORT_MEANS,
    by_classes,
    clock_words,
    stamp,
    tally_words,
    winner_words,
)
from hikite.process import Lexicon
from hikite.records import Recording


def _plain(text: str) -> str:
    """Text that stays text: Markdown's own signs escaped, no line breaks."""
    return re.sub(r"([\\`*_{}\[\]<>#|~!])", r"\\\1", " ".join(text.split()))


def _table(rows: Sequence[tuple[str, ...]]) -> list[str]:
    head, *body = rows
    return [
        "| " + " | ".join(head) + " |",
        "|" + " --- |" * len(head),
        *("| " + " | ".join(_plain(cell) for cell in row) + " |" for row in body),
    ]


def _bout(bout: BoutEntries, lexicon: Lexicon, several: bool) -> list[str]:
    competitors = [("side", "name", "from", "score")]
    for one in bout.competitors:
        score = tally_words(bout.final.get(one.side))
        competitors.append((one.side, one.name or "", one.nation or "", score))
    rows = [("time", "clock", "who", "what", "how it went", "score", "said")]
    for moment in moments_of(bout, same=lexicon.terms.same):
        at, clock = stamp(moment.start_ms), clock_words(moment.clock)
        said = f"“{moment.quote}”" if moment.quote else ""
        rows.append((at, clock, moment.who, moment.what, moment.how, moment.score, said))
    rules = lexicon.rulesets.rulesets.get(bout.ruleset)
    lines = [f"## Bout {bout.number}", ""] if several else []
    lines += [*_table(competitors), "", _plain(winner_words(bout)), ""]
    lines += [f"Rules: {_plain(rules.name if rules else bout.ruleset)}. Clock: time left, ~ is about.", ""]
    lines += [f"{SHORT_MEANS}.", ""] if by_classes(bout) else []
    lines += [*_table(rows), ""]
    if bout.contradictions:
        lines += [
            "What does not add up:",
            "",
            *(f"- {_plain(one.problem)}" for one in bout.contradictions),
            "",
        ]
    return lines


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    lines = [f"# {_plain(record.title or record.recording)}", ""]
    known = [
        part for part in (record.date, record.recording if record.title else None, record.address) if part
    ]
    lines += [_plain(" · ".join(known)), ""] if known else []
    for bout in record.bouts:
        lines += _bout(bout, lexicon, len(record.bouts) > 1)
    return "\n".join([*lines, f"*{CAUTION}*", "", ""])


FORMAT = Format("markdown", ".md", "the bout sheet as Markdown", True, _body)
