"""What the lexicon knows, on the terminal."""

import sys

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from hikite.cli.reading import check_rules
from hikite.cli.sheets import drawn
from hikite.outputs.hints import hints
from hikite.outputs.lookups import Known, look_up
from hikite.outputs.phrases import percent
from hikite.process import load_lexicon

TERM_CAUTION = "A word and its meaning, no instruction. "
RISKY = "This can injure or is prohibited in some rules: only under a qualified coach."
_NAMES = 12


def show_term(words: str) -> int:
    """Print what the words may mean; 0, or 1 where nothing is known."""
    found = look_up(words, load_lexicon())
    if not found:
        typer.echo(f"nothing in the lexicon reads or sounds like {words!r}", err=True)
        return 1
    parts: list[RenderableType] = []
    for one in found:
        parts += [_head(one, len(found)), _facts(one), ""]
    caution = TERM_CAUTION + (RISKY if any(one.concept.caution for one in found) else "")
    typer.echo(drawn(Group(*parts, Text(caution.strip(), style="dim")), sys.stdout), nl=False)
    return 0


def _head(one: Known, several: int) -> Text:
    sure = f"  {percent(one.probability)}" if several > 1 or one.how != "as written" else ""
    return Text.assemble((one.label, "bold"), f"  {one.concept.kind}, {one.how}{sure}")


def _facts(one: Known) -> Table:
    table = Table.grid(padding=(0, 2, 0, 2))
    table.add_column(min_width=12)
    table.add_column()
    source = f" (source: {one.concept.source})" if one.concept.source else " (common practice, no source)"
    rows = [
        ("means", one.concept.gloss + source),
        ("id", one.concept.id),
        ("tradition", one.concept.tradition),
    ]
    rows += [("is a", " < ".join(one.families)), ("also called", "; ".join(one.same))]
    rows += [("akin", "; ".join(one.near)), ("answers", "; ".join(one.answers))]
    rows.append(("kinds", "; ".join(one.members)))
    for key, names in one.names.items():
        more = f" and {len(names) - _NAMES} more" if len(names) > _NAMES else ""
        rows.append((key, "; ".join(names[:_NAMES]) + more))
    rows.append(("heard as", "; ".join(one.heard)))
    alike = (f"{other.label} (“{other.form}”, {other.distance:.2f})" for other in one.alike)
    rows.append(("sounds like", "; ".join(alike)))
    for key, value in rows:
        if value:
            table.add_row(Text(key, style="dim"), Text(value))
    return table


def show_hints(rules: str, count: int) -> None:
    """Print one name a line."""
    lexicon = load_lexicon()
    check_rules(rules, lexicon)
    typer.echo("\n".join(hints(lexicon.terms, rules, count, lexicon.language)))
