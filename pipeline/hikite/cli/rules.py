"""Rule sets on the terminal."""

import sys

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from hikite.cli.sheets import drawn
from hikite.ledger import load_rulesets
from hikite.ledger.rulebooks import Ruleset
from hikite.outputs.derivations import row_words
from hikite.outputs.phrases import CAUTION


def show_rules(key: str | None) -> None:
    """Print the list of rule sets, or one with its rows."""
    known = load_rulesets().rulesets
    if key is not None and key not in known:
        raise typer.BadParameter(f"no rule set {key!r}; there are {', '.join(sorted(known))}")
    shown = _list(known) if key is None else _one(known[key])
    typer.echo(drawn(Group(shown, "", Text(CAUTION, style="dim")), sys.stdout), nl=False)


def _list(known: dict[str, Ruleset]) -> Table:
    table = _table("key", "in force", "rules")
    for key, rules in sorted(known.items()):
        table.add_row(key, _era(rules), rules.name)
    return table


def _era(rules: Ruleset) -> str:
    since = rules.since.isoformat() if rules.since else "…"
    return f"{since} to {rules.until.isoformat() if rules.until else '…'}"


def _one(rules: Ruleset) -> Group:
    table = _table("row", "says", "mark", "source")
    for row in rules.rows():
        says = row_words(rules, row.id)
        table.add_row(row.id, says + (f"; {row.note}" if row.note else ""), row.mark, row.source)
    parts: list[RenderableType] = [Text(rules.name, style="bold"), f"{rules.key}, {_era(rules)}"]
    parts.append(f"sides {' and '.join(rules.sides)}; rows marked memory or contradicted warn, none rejects")
    return Group(*parts, "", table)


def _table(*names: str) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for name in names:
        table.add_column(name, no_wrap=name in ("key", "row", "in force"))
    return table
