"""The commands that make data of an archive; what does the work is imported only once one runs."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hikite.cli.archiving import ArchiveOption, Bar

if TYPE_CHECKING:
    from hikite.datasets.queues import Due


class Shape(StrEnum):
    """What ``--as`` takes."""

    lines = "lines"
    iob = "iob"
    documents = "documents"
    tables = "tables"


class As(StrEnum):
    """What ``--to`` takes."""

    table = "table"
    csv = "csv"


def add_to(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(dataset)
    app.command()(queue)
    app.command()(agreement)
    app.command()(settled)


def dataset(
    folder: Annotated[Path, typer.Argument(help="A new folder to write.")],
    archive: ArchiveOption,
    shapes: Annotated[
        list[Shape] | None,
        typer.Option(
            "--as", help="lines, iob, documents, tables; several; all but tables.", show_default=False
        ),
    ] = None,
    least: Annotated[
        float, typer.Option("--least", min=0, max=1, help="Labels at least so sure, or checked.")
    ] = 0.5,
    parts: Annotated[str, typer.Option("--parts", help="Shares of train, dev and test.")] = "80,10,10",
    seed: Annotated[int, typer.Option("--seed", help="Chooses among splits that are as good.")] = 1,
    machine: Annotated[bool, typer.Option("--machine", help="Leave out what people decided.")] = False,
) -> None:
    """Write an archive as data to learn from, split so that no athlete is in two parts."""
    shares = _shares(parts)
    from hikite.archive import Archive
    from hikite.datasets import Plan, write_dataset
    from hikite.process import load_lexicon

    wanted = tuple(shape.value for shape in shapes or (Shape.lines, Shape.iob, Shape.documents))
    plan = Plan.model_validate(
        {"shapes": wanted, "least": least, "seed": seed, "shares": shares, "machine": machine}
    )
    with Archive.open(archive) as opened, Bar() as bar:
        counts = write_dataset(
            opened, folder, plan, load_lexicon(), lambda done, of: bar.watch("writing", done, of)
        )
    for part, sums in counts.sums.items():
        typer.echo(f"{part}: {sums['recordings']:,} recordings, {sums['labels']:,} labels")
    for part in counts.empty:
        typer.echo(f"{part} is empty: too much hangs together by its athletes", err=True)


def queue(
    archive: ArchiveOption,
    count: Annotated[int, typer.Option("--count", min=1, max=100_000, help="How many at most.")] = 20,
    to: Annotated[As, typer.Option("--to", help="What to write.")] = As.table,
) -> None:
    """List the entries whose check teaches most: disputed, unsure and rare ones first."""
    from hikite.archive import Archive
    from hikite.datasets.queues import as_csv, queue_of

    with Archive.open(archive) as opened:
        found = queue_of(opened, count)
    if to is As.csv:
        typer.echo(as_csv(found), nl=False)
    else:
        _table(found)
    raise typer.Exit(0 if found else 1)


def agreement(
    one: Annotated[str, typer.Argument(help="A reviewer.")],
    other: Annotated[str, typer.Argument(help="Another.")],
    archive: ArchiveOption,
) -> None:
    """Tell how far two reviewers agree: Cohen's kappa, and F1 of what they let stand."""
    from hikite.archive import Archive
    from hikite.datasets.agreements import agreement_of

    with Archive.open(archive) as opened:
        found = agreement_of(opened, one, other)
    typer.echo(f"{one} and {other}: {found.recordings:,} recordings that both have worked on")
    for facet in found.facets:
        same = "–" if facet.same is None else f"{facet.same:.0%} the same"
        kappa = "no kappa" if facet.kappa is None else f"kappa {facet.kappa:.2f}"
        typer.echo(f"{facet.name:>10}  {facet.judged:>6,} judged, {same}, {kappa}")
    for name, share in (("spans", found.spans_f1), ("whole", found.whole_f1)):
        typer.echo(f"{name:>10}  F1 {'–' if share is None else f'{share:.2f}'}")


def settled(
    archive: ArchiveOption,
    by: Annotated[
        str | None, typer.Option("--by", help="What this reviewer settled.", show_default=False)
    ] = None,
    to: Annotated[As, typer.Option("--to", help="What to write.")] = As.table,
) -> None:
    """Tell how far confidences meant what they said, by what reviewers settled."""
    from hikite.archive import Archive
    from hikite.datasets.settled import as_csv
    from hikite.datasets.settled import settled as settled_in
    from hikite.evaluate.reports import calibration_table

    with Archive.open(archive) as opened:
        found = settled_in(opened, by)
    if to is As.csv:
        typer.echo(as_csv(found), nl=False)
    elif found:
        typer.echo(calibration_table(tuple(one.guess for one in found)), nl=False)
    else:
        typer.echo("nobody has settled anything yet", err=True)
    raise typer.Exit(0 if found else 1)


def _shares(parts: str) -> tuple[float, ...]:
    """``80,10,10`` as shares of 1; a usage error where it is anything else."""
    try:
        given = [float(part) for part in parts.split(",")]
        total = sum(given)
        shares = tuple(part / total for part in given)
    except (ValueError, ZeroDivisionError):
        given, shares = [], ()
    if len(shares) != 3 or not all(0 <= share <= 1 for share in shares):
        raise typer.BadParameter("three numbers, as 80,10,10", param_hint="--parts")
    return shares


_WIDTHS = {"entry": 6, "time": 5, "side": 5, "status": 9}


def _table(found: "tuple[Due, ...]") -> None:
    from rich.table import Table
    from rich.text import Text

    from hikite.cli.sheets import drawn, said
    from hikite.outputs.phrases import percent, stamp

    table = Table(box=None, pad_edge=False)
    for name in ("weight", "recording", "entry", "time", "what", "side", "status", "sure", "said"):
        # In a narrow terminal the words give way, never what names or places the entry.
        if name == "recording":
            table.add_column(name, overflow="ellipsis", no_wrap=True, min_width=8, max_width=16)
        elif name in ("what", "said"):
            table.add_column(name, overflow="fold", min_width=8)
        else:
            table.add_column(name, no_wrap=True, min_width=_WIDTHS.get(name, len(name)))
    for one in found:
        title = f"{one.recording} {one.title or ''}"
        cells = (
            f"{one.weight:.2f}", title, one.entry, stamp(one.start_ms), one.concept, one.side or "",
            one.status, percent(one.confidence), f"“{one.words}”" if one.words else "",
        )  # fmt: skip
        table.add_row(*(Text(said(cell)) for cell in cells))
    typer.echo(drawn(table, sys.stdout), nl=False)
