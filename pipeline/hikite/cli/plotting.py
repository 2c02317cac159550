"""The command that draws; what does the work is imported only once it runs."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hikite.cli.numbers import Rules, Since, Sure, Until, Weighted, What, Who, counted

if TYPE_CHECKING:
    from hikite.plots import Drawing
    from hikite.records import Recording


class Picture(StrEnum):
    """What is drawn."""

    timeline = "timeline"
    outcomes = "outcomes"
    minutes = "minutes"
    reliability = "reliability"


_COUNTED = {Picture.outcomes: "technique", Picture.minutes: "scores"}


def add_to(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(plot)


def plot(
    picture: Annotated[Picture, typer.Argument(help="What to draw.")],
    source: Annotated[
        str | None,
        typer.Argument(
            help="timeline: a recording's file, or its number in the archive; "
            "reliability: the file of `hikite evaluate --save`.",
            show_default=False,
        ),
    ] = None,
    out: Annotated[Path | None, typer.Option("--out", help="FILE.svg or FILE.png.")] = None,
    archive: Annotated[
        Path | None, typer.Option("--archive", envvar="HIKITE_ARCHIVE", help="The archive's file.")
    ] = None,
    sure: Sure = 0.0,
    weighted: Weighted = False,
    what: What = None,
    who: Who = None,
    rules: Rules = None,
    since: Since = None,
    until: Until = None,
) -> None:
    """Draw a bout's score, what became of techniques, when scores fall, or an evaluation's reliability."""
    from hikite.plots import save

    given: dict[str, object] = {
        "by": _COUNTED.get(picture), "sure": sure, "weighted": weighted, "what": what, "who": who,
        "rules": rules, "since": since, "until": until,
    }  # fmt: skip
    if picture in _COUNTED:
        drawing = _counted(picture, archive, given)
    elif source is None:
        raise typer.BadParameter(f"{picture.value} needs a source", param_hint="SOURCE")
    else:
        drawing = _timeline(source, archive) if picture is Picture.timeline else _reliability(Path(source))
    file = out or Path(f"{picture.value}.svg")
    save(drawing, file)
    typer.echo(str(file))


def _counted(picture: Picture, archive: Path | None, given: dict[str, object]) -> "Drawing":
    from hikite.archive import Archive
    from hikite.plots.tallies import minutes, outcomes

    with Archive.open(_needed(archive)) as opened:
        table = counted(opened, given)
    return outcomes(table) if picture is Picture.outcomes else minutes(table)


def _timeline(source: str, archive: Path | None) -> "Drawing":
    from hikite.plots.timelines import score_timeline

    return score_timeline(_recording(source, archive))


def _recording(source: str, archive: Path | None) -> "Recording":
    """A recording of the archive by number, or a file read now with its bout sheet."""
    if source.isdigit() and not Path(source).exists():
        from hikite.archive import Archive

        with Archive.open(_needed(archive)) as opened:
            return opened.reading(int(source))
    from hikite.cli.reading import recording_of
    from hikite.process import load_lexicon

    return recording_of(Path(source), None, None, load_lexicon())


def _reliability(file: Path) -> "Drawing":
    from hikite.cli.evaluating import kept_run
    from hikite.plots.reliabilities import reliabilities

    return reliabilities(kept_run(file).guesses)


def _needed(archive: Path | None) -> Path:
    if archive is None:
        raise typer.BadParameter("which archive?", param_hint="--archive")
    return archive
