"""One entry explained on the terminal."""

import re
import sys
from pathlib import Path

import typer
from rich.console import Group
from rich.text import Text
from rich.tree import Tree

from hikite.cli.reading import check_rules, recording_of
from hikite.cli.sheets import drawn, said
from hikite.outputs import record_of
from hikite.outputs.derivations import Node, derive
from hikite.outputs.entries import BoutRecord
from hikite.outputs.phrases import CAUTION
from hikite.process import load_lexicon

WEIGHTS = "Figures with a sign are weights in log odds: + speaks for it, - against."
_NEAR_MS = 1_500


def explain_event(
    file: Path, event: str, sheet: Path | None, rules: str | None, aliases: tuple[Path, ...] = ()
) -> None:
    """Print the derivation of the entry with this id, or of those at this time."""
    lexicon = load_lexicon(aliases=aliases)
    check_rules(rules, lexicon)
    recording = recording_of(file, sheet, rules, lexicon)
    record = record_of(recording, lexicon)
    trees = [derive(recording, record, lexicon, id_) for id_ in _ids(event, record)]
    shown = [tree_of(tree) for tree in trees if tree is not None]
    typer.echo(drawn(Group(*shown, Text(f"{WEIGHTS} {CAUTION}", style="dim")), sys.stdout), nl=False)


def _ids(event: str, record: BoutRecord) -> list[str]:
    """The ids meant: one as given, a bare number in the only bout, or those at a time."""
    entries = [entry for bout in record.bouts for entry in bout.entries]
    if not entries:
        raise typer.BadParameter("nothing is told of a bout here")
    known = {entry.id for entry in entries}
    given = f"b{record.bouts[0].number}.{event}" if event.isdigit() and len(record.bouts) == 1 else event
    if given in known:
        return [given]
    if not re.fullmatch(r"(\d+:)?\d{1,3}:[0-5]\d", event):
        raise typer.BadParameter(f"no entry {event}; they go from {entries[0].id} to {entries[-1].id}")
    at = 0
    for part in event.split(":"):
        at = at * 60 + int(part)
    ms = at * 1000
    here = [e.id for e in entries if e.start_ms - _NEAR_MS <= ms <= e.end_ms + _NEAR_MS]
    return here or [min(entries, key=lambda entry: abs(entry.start_ms - ms)).id]


def tree_of(node: Node, above: Tree | None = None) -> Tree:
    """A derivation as a tree of its own, or under another."""
    label = Text(said(node.says), style="bold" if above is None else "")
    here = Tree(label) if above is None else above.add(label)
    for one in node.because:
        tree_of(one, here)
    return here
