"""The commands that fill and tend an archive; what does the work is imported only once one runs."""

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from hikite.archive.keeping import Summary, Watch

ArchiveOption = Annotated[
    Path,
    typer.Option("--archive", envvar="HIKITE_ARCHIVE", help="The archive's file.", show_envvar=True),
]
_SHOWN = 20


def add_to(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(keep)
    app.command()(holdings)
    app.command()(check)
    app.command()(backup)
    app.command()(remove)


def keep(
    archive: ArchiveOption,
    places: Annotated[
        list[Path] | None,
        typer.Argument(help="Recordings, or folders of them; none: read again what the archive holds."),
    ] = None,
    jobs: Annotated[int, typer.Option("--jobs", min=1, help="Processes that read.")] = os.cpu_count() or 1,
    everything: Annotated[bool, typer.Option("--all", help="List every file, however many.")] = False,
) -> None:
    """Keep recordings in an archive; nothing is read twice, what vanished is told and never deleted."""
    from hikite.archive import Archive
    from hikite.archive.keeping import keep_files

    with Archive.open(archive, write=True) as opened, Bar() as bar:
        summary = keep_files(opened, tuple(places or ()), jobs=jobs, watch=bar.watch)
    _tell(summary, everything)
    raise typer.Exit(1 if summary.refused else 0)


def holdings(archive: ArchiveOption) -> None:
    """Tell what an archive holds, which files it refused and which it misses."""
    from hikite.archive import Archive
    from hikite.archive.holdings import holdings_of
    from hikite.cli.sheets import said

    with Archive.open(archive) as opened:
        told = holdings_of(opened)
    for name, count in told.counts.items():
        typer.echo(f"{count:>12,}  {name}")
    _list("refused", [f"{one.path}: {one.reason}" for one in told.refused], everything=True)
    _list("no longer found", [said(path) for path in told.missing], everything=True)


def check(
    archive: ArchiveOption,
    deep: Annotated[bool, typer.Option("--deep", help="Also unpack every recording.")] = False,
) -> None:
    """Check that an archive is whole."""
    from hikite.archive import Archive
    from hikite.archive.checks import find_faults

    with Archive.open(archive, write=os.access(archive, os.W_OK) and archive.exists()) as opened:
        faults = find_faults(opened, deep=deep)
    for fault in faults:
        typer.echo(fault, err=True)
    if faults:
        raise typer.Exit(1)
    typer.echo(f"{archive} is whole")


def backup(
    to: Annotated[Path, typer.Argument(help="The file to write; it must not be there yet.")],
    archive: ArchiveOption,
) -> None:
    """Copy an archive into another file, while it may be read and written."""
    from hikite.archive import Archive

    with Archive.open(archive) as opened:
        opened.backup(to)
    typer.echo(f"{to} is a copy of {archive}")


def remove(
    recordings: Annotated[
        list[str], typer.Argument(help="Their files, or their numbers as a search tells them as JSON.")
    ],
    archive: ArchiveOption,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
) -> None:
    """Take recordings out of an archive for good; their files and people's decisions on them stay."""
    from hikite.archive import Archive
    from hikite.archive.errors import ArchiveError
    from hikite.archive.removals import find_recording
    from hikite.archive.removals import remove as take_out
    from hikite.cli.sheets import said

    if not archive.is_file():
        raise ArchiveError("no archive here", file=str(archive))
    with Archive.open(archive, write=True) as opened:
        found = {one.id: one for one in (find_recording(opened, named) for named in recordings)}
        for one in found.values():
            typer.echo(said(f"{one.id}  {one.title or one.path or ''}"))
        if not yes:
            typer.confirm("Remove all that was read from them?", abort=True)
        stay = take_out(opened, tuple(found))
    typer.echo(f"{len(found):,} removed; {stay:,} decisions on them are kept")


class Bar:
    """A bar on a terminal's standard error; nothing elsewhere."""

    def __enter__(self) -> "Bar":
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

        self._bar = Progress(
            TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn(),
            console=Console(stderr=True), transient=True, disable=not sys.stderr.isatty(),
        )  # fmt: skip
        self._tasks: dict[str, int] = {}
        self._bar.start()
        return self

    def __exit__(self, *error: object) -> None:
        self._bar.stop()

    @property
    def watch(self) -> "Watch":
        """Moves the bar of what is going on."""
        return self._watch

    def _watch(self, what: str, done: int, of: int) -> None:
        from rich.progress import TaskID

        if what not in self._tasks:
            self._tasks[what] = self._bar.add_task(what, total=of or None)
        self._bar.update(TaskID(self._tasks[what]), completed=done, total=of or done)


def _tell(summary: "Summary", everything: bool) -> None:
    """The summary: counts on standard output, files with something wrong on standard error."""
    counts = {
        "looked at": summary.looked_at, "new": summary.new, "edited": summary.edited,
        "read again": summary.again, "moved": len(summary.moved), "copies": summary.copies,
        "as before": summary.same, "refused": len(summary.refused), "no longer found": len(summary.vanished),
    }  # fmt: skip
    typer.echo("; ".join(f"{count:,} {name}" for name, count in counts.items() if count) or "nothing to do")
    if summary.words:
        rate = summary.words / max(summary.seconds, 0.001)
        typer.echo(f"{summary.words:,} words in {summary.seconds:,.1f} s, {rate:,.0f} a second")
    if summary.stale:
        typer.echo(
            f"{summary.stale:,} were read with other words, rules or program: `hikite keep` without a folder"
            " reads them again"
        )
    _list("moved", [f"{before} → {after}" for before, after in summary.moved], everything)
    _list("no longer found, but kept", list(summary.vanished), everything)
    _list(
        "refused",
        [one.reason if one.path in one.reason else f"{one.path}: {one.reason}" for one in summary.refused],
        everything,
    )


def _list(title: str, lines: list[str], everything: bool) -> None:
    from hikite.cli.sheets import said

    shown = lines if everything else lines[:_SHOWN]
    for line in shown:
        typer.echo(f"{title}: {said(line)}", err=True)
    if len(lines) > len(shown):
        typer.echo(f"{title}: {len(lines) - len(shown):,} more; --all lists them", err=True)
