"""The bout sheet for people: plain where there is no terminal, as wide as there is room."""

import io
import os
import shutil
import unicodedata
from typing import TYPE_CHECKING, TextIO

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from hikite.outputs.entries import BoutEntries, BoutRecord
from hikite.outputs.moments import Moment, moments_of
from hikite.outputs.phrases import (
    CAUTION,
    SHORT_MEANS,
    by_classes,
    clock_words,
    percent,
    stamp,
    tally_words,
    winner_words,
)

if TYPE_CHECKING:
    from hikite.process import Lexicon

_COLOURS = {"red": "red", "blue": "bright_blue", "white": "bold"}
_NARROW, _WIDEST, _PLAIN = 72, 120, 100


def sheet_text(record: BoutRecord, lexicon: "Lexicon", stream: TextIO, everything: bool = False) -> str:
    """The sheet of one recording as text for ``stream``, coloured only where that is a terminal."""
    return drawn(bout_sheet(record, lexicon, _width(stream), everything), stream)


def drawn(what: RenderableType, stream: TextIO) -> str:
    """Anything to show as text for ``stream``; NO_COLOR is honoured."""
    paper = io.StringIO()
    terminal = stream.isatty()
    console = Console(
        file=paper,
        width=_width(stream),
        force_terminal=terminal,
        no_color=bool(os.environ.get("NO_COLOR")) or None,
        highlight=False,
        legacy_windows=False,
    )
    console.print(what)
    text = paper.getvalue()
    return text if terminal else "\n".join(line.rstrip() for line in text.split("\n"))


def _width(stream: TextIO) -> int:
    if stream.isatty() or os.environ.get("COLUMNS"):
        return min(shutil.get_terminal_size().columns, _WIDEST)
    return _PLAIN


def said(text: str) -> str:
    """Text of a file, without signs that would steer a terminal."""
    return "".join(" " if unicodedata.category(c) == "Cc" else c for c in text)


def bout_sheet(record: BoutRecord, lexicon: "Lexicon", width: int, everything: bool = False) -> Group:
    """Title, then each bout: who fought, the result, what happened when, what does not add up."""
    title = said(record.title or record.recording)
    parts: list[RenderableType] = [Text(title, style="bold")]
    known = [record.date, record.recording if record.title else None, record.address]
    if any(known):
        parts.append(Text(" · ".join(said(part) for part in known if part), style="dim"))
    for bout in record.bouts:
        if len(record.bouts) > 1:
            parts += ["", Rule(f"Bout {bout.number}, from {stamp(bout.start_ms)}", align="left")]
        parts += ["", *_bout(bout, lexicon, width, everything)]
    if not record.bouts:
        parts.append("No bout is told of here.")
    return Group(*parts, "", Text(CAUTION, style="dim"))


def _bout(bout: BoutEntries, lexicon: "Lexicon", width: int, everything: bool) -> list[RenderableType]:
    moments = moments_of(bout, everything, lexicon.terms.same)
    parts: list[RenderableType] = [
        _fighters(bout),
        "",
        Text(winner_words(bout), style="bold"),
        _rules(bout, lexicon),
        "",
    ]
    parts += _narrow(moments, width) if width < _NARROW else _wide(moments, width)
    told = {id_ for moment in moments for id_ in moment.entries}
    if not moments:
        parts.append("Nothing was told of it that belongs on a sheet.")
    rest = len(bout.entries) - len(told)
    if rest and not everything:
        parts.append(Text(f"{rest} more (clocks and scores said, recaps, suppositions): --all", style="dim"))
    if bout.contradictions:
        parts += ["", Text("What does not add up", style="bold")]
        parts += [Padding(Text(f"– {said(clash.problem)}"), (0, 0, 0, 1)) for clash in bout.contradictions]
    return parts


def _fighters(bout: BoutEntries) -> Table:
    table = Table.grid(padding=(0, 2))
    for one in bout.competitors:
        name = ", ".join(said(part) for part in (one.name, one.nation) if part)
        colour = _COLOURS.get(one.side, "")
        table.add_row(
            Text(one.side.upper(), style=f"bold {colour}"),
            Text(name or "not named"),
            Text(tally_words(bout.final.get(one.side)), style="bold"),
        )
    return Table.grid() if not bout.competitors else table


def _rules(bout: BoutEntries, lexicon: "Lexicon") -> Text:
    rules = lexicon.rulesets.rulesets.get(bout.ruleset)
    name = rules.name if rules else bout.ruleset
    guessed = "" if bout.ruleset_confidence >= 1 else f", as it sounds ({percent(bout.ruleset_confidence)})"
    short = f" {SHORT_MEANS}." if by_classes(bout) else ""
    return Text(
        f"Rules: {name}{guessed}. Clock: time left, ~ about, + gone in golden score. ? whose is unsure. "
        f"Score: {'–'.join(bout.sides)}.{short}",
        style="dim",
    )


def _wide(moments: tuple[Moment, ...], width: int) -> list[RenderableType]:
    """Columns, with the words spoken under what they tell."""
    who = max([3, *(len(moment.who) for moment in moments)])
    score = max([5, *(len(moment.score) for moment in moments)])
    time = max([4, *(len(stamp(moment.start_ms)) for moment in moments)])
    rest = width - time - 6 - who - score - 10
    sizes = (time, 6, who, rest * 9 // 20, rest - rest * 9 // 20, score)
    head = [Text(word, style="dim") for word in ("time", "clock", "who", "what", "how it went", "score")]
    parts: list[RenderableType] = [_row(head, sizes)]
    for moment in moments:
        parts.append(_row(_cells(moment), sizes))
        if moment.quote:
            indent = time + 6 + who + 6
            parts.append(Padding(_quote(moment, width - indent - score - 2), (0, 0, 0, indent)))
    return parts


def _row(cells: list[Text], sizes: tuple[int, ...]) -> Table:
    row = Table.grid(padding=(0, 2, 0, 0))
    for at, size in enumerate(sizes):
        row.add_column(width=size, justify="right" if at in (0, 1, 5) else "left")
    row.add_row(*cells)
    return row


def _cells(moment: Moment) -> list[Text]:
    strong = "bold" if moment.counts else ""
    return [
        Text(stamp(moment.start_ms)),
        Text(clock_words(moment.clock)),
        Text(moment.who, style=_COLOURS.get(moment.side or "", "")),
        Text(moment.what, style=strong),
        Text(moment.how, style=strong),
        Text(moment.score, style="bold"),
    ]


def _narrow(moments: tuple[Moment, ...], width: int) -> list[RenderableType]:
    """A line for each moment, wrapped, where there is no room for columns."""
    parts: list[RenderableType] = []
    for moment in moments:
        at, clock, who, what, how, score = _cells(moment)
        line = Text("  ").join(part for part in (at, clock, who, what) if part)
        if how:
            line = Text(", ").join((line, how))
        if score:
            line.append_text(Text.assemble("  [", score, "]"))
        parts.append(line)
        if moment.quote:
            parts.append(Padding(_quote(moment, width - 2), (0, 0, 0, 2)))
    return parts


def _quote(moment: Moment, room: int) -> Text:
    """As much of the statement as one line has room for, the words that name the action standing out."""
    statement, words = said(moment.quote), said(moment.words)
    room = max(room - 2, 12)
    if len(statement) > room:
        middle = max(statement.find(words), 0) + len(words) // 2
        start = max(0, min(middle - room // 2, len(statement) - room + 2))
        start = start and statement.find(" ", start) + 1
        stop = start + room - 2
        stop = stop if stop >= len(statement) else max(statement.rfind(" ", start, stop), start + 8)
        statement = ("…" if start else "") + statement[start:stop] + ("…" if stop < len(statement) else "")
    quote = Text(f"“{statement}”", style="dim italic", no_wrap=True, overflow="ellipsis")
    if words:
        quote.highlight_words([words], style="not dim")
    return quote
