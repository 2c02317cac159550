"""The commands for a corpus past one machine; what does the work is imported only once one runs."""

from pathlib import Path
from typing import Annotated

import typer

from hikite.cli.archiving import ArchiveOption

To = Annotated[str, typer.Option("--to", help="Folder, or an address that fsspec knows.")]


def add_to(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(deal)
    app.command()(spread)
    app.command()(gather)


def deal(
    places: Annotated[list[Path], typer.Argument(help="Recordings, or folders of them.")],
    to: To,
    each: Annotated[int, typer.Option("--each", min=1, help="Recordings in a shard.")] = 200,
) -> None:
    """Deal recordings into shards for the workers of a cluster: JSON Lines of transcripts."""
    from hikite.shards.dealing import deal as dealt

    told = dealt(tuple(places), to, each)
    typer.echo(f"{told.recordings:,} recordings in {told.shards:,} shards; {told.refused:,} refused")


def spread(
    shards: Annotated[str, typer.Argument(help="Folder or address of shards (JSON Lines or Parquet).")],
    to: To,
    workers: Annotated[int, typer.Option("--workers", min=1, help="Workers to start here.")] = 2,
    scheduler: Annotated[
        str | None,
        typer.Option("--scheduler", help="A Dask scheduler's address instead.", show_default=False),
    ] = None,
    aliases: Annotated[
        list[Path] | None,
        typer.Option(
            "--aliases",
            exists=True,
            dir_okay=False,
            show_default=False,
            help="Corrected names, such as bouts.archive.aliases.toml; again for more.",
        ),
    ] = None,
) -> None:
    """Read shards on a cluster and write the records as partitioned Parquet; what is done stays done."""
    from time import monotonic

    from hikite.cli.archiving import Bar
    from hikite.shards.spreading import spread as spread_out

    began = monotonic()
    with Bar() as bar:
        told = spread_out(
            shards, to, workers=workers, scheduler=scheduler, aliases=tuple(aliases or ()), watch=bar.watch
        )
    fresh = [one.done for one in told.worked if not one.before]
    before = len(told.worked) - len(fresh)
    typer.echo(f"{len(fresh):,} shards done, {before:,} as before, {len(told.failed):,} failed")
    words, seconds = sum(one.words for one in fresh), monotonic() - began
    if words:
        typer.echo(f"{words:,} words in {seconds:,.1f} s, {words / seconds:,.0f} a second")
    for one in told.failed:
        typer.echo(f"failed: {one.path}: {one.reason}", err=True)
    raise typer.Exit(1 if told.failed else 0)


def gather(
    source: Annotated[str, typer.Argument(help="Folder or address that `hikite spread` wrote to.")],
    archive: ArchiveOption,
) -> None:
    """Put what finished shards hold into an archive."""
    from hikite.archive import Archive
    from hikite.shards.gathering import gather as gathered

    with Archive.open(archive, write=True) as opened:
        told = gathered(opened, source)
    counts = f"{told.put:,} recordings put, {told.same:,} as before, {told.refused:,} refused"
    typer.echo(f"{told.shards:,} shards: {counts}")
    if told.unfinished:
        typer.echo(
            f"{told.unfinished:,} shards are not finished: `hikite spread` goes on with them", err=True
        )
    raise typer.Exit(1 if told.unfinished else 0)
