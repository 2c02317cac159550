"""Hits on the terminal."""

import sys
from collections.abc import Callable
from functools import cache, partial
from itertools import groupby
from typing import TYPE_CHECKING

import typer
from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text
from rich.tree import Tree

from hikite.archive import Archive, Query
from hikite.archive.searches.explaining import beside, points_words
from hikite.archive.searches.explaining import why as reasons
from hikite.archive.searches.hits import Found, Hit
from hikite.archive.searches.namings import Naming
from hikite.cli.sheets import drawn, said
from hikite.outputs.phrases import CAUTION, clock_words, percent, stamp
from hikite.records import Clock

if TYPE_CHECKING:
    from hikite.outputs.derivations import Node


def show(archive: Archive, query: Query, found: Found, why: bool) -> None:
    """Print the hits under their recordings, and what the names were taken for."""
    taken = (_taken(one, plain=not found.hits) for one in found.namings)
    parts: list[RenderableType] = [Text(line, style="dim") for line in taken if line]
    derived = cache(partial(_derived, archive))
    for recording, group in groupby(found.hits, key=lambda hit: hit.recording):
        hits = tuple(group)
        head = " · ".join(said(part) for part in (hits[0].title or hits[0].path, hits[0].date) if part)
        parts += ["", Text(head, style="bold")]
        for hit in hits:
            parts += [_row(hit), Padding(_quote(hit), (0, 0, 0, 16))]
            parts += [Padding(Text(said(line)), (0, 0, 0, 17)) for line in beside(hit, query)]
            if why:
                node = derived(recording)(hit.entry) if hit.entry is not None else None
                parts.append(Padding(_reasons(query, found, hit, node), (0, 0, 0, 16)))
    parts += ["", Text(_count(found)), Text(CAUTION, style="dim")]
    typer.echo(drawn(Group(*parts), sys.stdout).lstrip("\n"), nl=False)


def _taken(naming: Naming, plain: bool) -> str:
    """What a name was taken for, where that is not plain, or where nothing was found."""
    instead = f"; it may also be {', '.join(naming.instead)}" if naming.instead else ""
    if naming.how != "name":
        sure = percent(naming.probability)
        return f"{naming.asked!r} was taken for {naming.labels[0]} ({naming.how}, {sure}){instead}"
    if len(naming.labels) > 1 or plain:
        return f"{naming.asked!r} means {' or '.join(naming.labels)}"
    return ""


def _row(hit: Hit) -> Table:
    row = Table.grid(padding=(0, 2, 0, 0))
    for size, justify in ((7, "right"), (6, "right"), (None, "left")):
        row.add_column(width=size, justify=justify, no_wrap=size is not None)  # type: ignore[arg-type]
    row.add_row(Text(stamp(hit.start_ms)), Text(_clock(hit)), Text(_told(hit)))
    return row


def _told(hit: Hit) -> str:
    """Who did what, how it went, what it brought, how the score was before it, how sure that is."""
    if hit.entry is None:
        return said(hit.speaker or "")
    who = " ".join(part for part in (hit.side, hit.competitor) if part)
    brought = hit.score_class or points_words(hit.points)
    before = f"at {hit.score_before}" if any(map(str.isdigit, hit.score_before or "")) else ""
    sure = percent(hit.confidence or 0.0).replace(" %", "%")
    what = ", ".join(part for part in (hit.label, hit.status, brought, before, sure) if part)
    return said(f"{who}: {what}" if who else what)


def _clock(hit: Hit) -> str:
    if hit.clock_low_s is None or hit.clock_high_s is None or hit.clock_best_s is None:
        return ""
    clock = Clock(
        low_s=hit.clock_low_s, high_s=hit.clock_high_s, best_s=hit.clock_best_s, golden=bool(hit.golden)
    )
    return clock_words(clock)


def _quote(hit: Hit) -> Text:
    quote = Text(f"“{said(hit.statement)}”" if hit.statement else "", style="dim italic")
    if hit.words:
        quote.highlight_words([said(hit.words)], style="not dim")
    return quote


def _derived(archive: Archive, recording: int) -> "Callable[[str], Node | None]":
    """How any entry of a recording follows from the words."""
    from hikite.archive.derivations.deriving import loaded
    from hikite.outputs import record_of
    from hikite.outputs.derivations import derive

    lexicon, whole = loaded(), archive.reading(recording)
    return partial(derive, whole, record_of(whole, lexicon), lexicon)


def _reasons(query: Query, found: Found, hit: Hit, node: "Node | None") -> Tree:
    """What meets each condition, then how the entry follows from the words."""
    tree = Tree(Text("why", style="bold"))
    for line in reasons(hit, query, found.namings):
        tree.add(Text(said(line)))
    if node is not None:
        from hikite.cli.explaining import tree_of

        tree_of(node, tree)
    tree.add(Text(hit.link))
    return tree


def _count(found: Found) -> str:
    shown = len(found.hits)
    if found.total is None:
        return f"{shown} of more than {found.over:,}"
    if not found.total:
        return "nothing found"
    return f"{found.total:,} found" if found.total == shown else f"{shown} of {found.total:,}"
