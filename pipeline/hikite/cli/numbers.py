"""The command that counts what an archive holds; what does the work is imported only once it runs."""

import sys
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from hikite.cli.archiving import ArchiveOption

if TYPE_CHECKING:
    from hikite.archive import Archive
    from hikite.numbers import Ask, Table
    from hikite.numbers.rates import Rate


class By(StrEnum):
    """What is counted by."""

    technique = "technique"
    family = "family"
    athlete = "athlete"
    grip = "grip"
    rules = "rules"
    minute = "minute"
    path = "path"
    scores = "scores"
    first = "first"
    comeback = "comeback"


class As(StrEnum):
    """What ``--to`` takes."""

    table = "table"
    json = "json"
    csv = "csv"


Text = str | None
Sure = Annotated[float, typer.Option("--sure", min=0, max=1, help="Count only what is at least so sure.")]
Weighted = Annotated[bool, typer.Option("--weighted", help="Count each by its confidence.")]
What = Annotated[Text, typer.Option("--what", help="A technique or family, by any name.", show_default=False)]
Who = Annotated[Text, typer.Option("--by", help="Words of an athlete's name.", show_default=False)]
Rules = Annotated[
    Text, typer.Option("--rules", help="Rule set, a key of `hikite rules`.", show_default=False)
]
Since = Annotated[Text, typer.Option("--since", help="First day, as 2026-05-09.", show_default=False)]
Until = Annotated[Text, typer.Option("--until", help="Last day.", show_default=False)]


def add_to(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(numbers)


def numbers(
    by: Annotated[By, typer.Argument(help="What to count by.")],
    archive: ArchiveOption,
    sure: Sure = 0.0,
    weighted: Weighted = False,
    what: What = None,
    who: Who = None,
    rules: Rules = None,
    since: Since = None,
    until: Until = None,
    least: Annotated[
        int, typer.Option("--least", min=1, help="Leave out lines that rest on fewer than this.")
    ] = 1,
    limit: Annotated[int, typer.Option("--limit", min=1, help="Table: so many lines at most.")] = 30,
    to: Annotated[As, typer.Option("--to", help="What to write.")] = As.table,
) -> None:
    """Count what an archive holds: tries, what came off, what scored, who wins, with 95 % intervals."""
    from hikite.archive import Archive
    from hikite.numbers.writing import as_csv, as_json

    given: dict[str, object] = {
        "by": by.value, "sure": sure, "weighted": weighted, "what": what, "who": who, "rules": rules,
        "since": since, "until": until, "least": least,
    }  # fmt: skip
    with Archive.open(archive) as opened:
        table = counted(opened, given)
    if to is As.table:
        _show(table, limit)
    else:
        sys.stdout.write(as_json(table) if to is As.json else as_csv(table))
    raise typer.Exit(0 if table.lines else 1)


def counted(archive: "Archive", given: dict[str, object]) -> "Table":
    """The table that these options ask for."""
    from pydantic import ValidationError

    from hikite.archive.errors import QueryError
    from hikite.numbers import Ask, count

    try:
        return count(archive, Ask.model_validate(given))
    except ValidationError as error:
        first = error.errors()[0]
        raise typer.BadParameter(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    except QueryError as error:
        raise typer.BadParameter(str(error)) from None


def _show(table: "Table", limit: int) -> None:
    from rich import box
    from rich.console import Group
    from rich.table import Table as Drawn
    from rich.text import Text as Words

    from hikite.cli.sheets import drawn, said
    from hikite.numbers.writing import columns_of

    counts, rates = columns_of(table)
    grid = Drawn(box=box.SIMPLE_HEAD, pad_edge=False)
    for name in table.names:
        grid.add_column(name)
    for name in (*counts, *(f"{each} %" for each in rates)):
        grid.add_column(name, justify="right", no_wrap=True)
    for line in table.lines[:limit]:
        told = [_number(line.counts[name], table.ask) for name in counts]
        grid.add_row(*(Words(said(label)) for label in line.labels), *told, *map(_share, line.rates.values()))
    notes = [table.basis]
    if len(table.lines) > limit:
        more = len(table.lines) - limit
        notes.append(f"{more:,} more line{'' if more == 1 else 's'}; --limit shows them")
    if rates:
        notes.append("Shares with Wilson's 95 % interval, which tells of chance alone, not of misreadings.")
    typer.echo(drawn(Group(grid, *(Words(note, style="dim") for note in notes)), sys.stdout), nl=False)


def _number(value: float, ask: "Ask") -> str:
    return f"{value:,.1f}" if ask.weighted else f"{value:,.0f}"


def _share(rate: "Rate | None") -> str:
    return "" if rate is None else f"{rate.share * 100:.0f} ({rate.low * 100:.0f}–{rate.high * 100:.0f})"
