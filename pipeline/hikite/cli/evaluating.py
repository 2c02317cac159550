"""Figures on labelled recordings, on the terminal."""

from pathlib import Path
from typing import Literal, NamedTuple, cast

import typer
from pydantic import ValidationError

from hikite.errors import GoldError
from hikite.evaluate import evaluate, report
from hikite.evaluate.runs import Run
from hikite.outputs.files import whole_file
from hikite.process import load_lexicon


class Task(NamedTuple):
    """What the command line asks for."""

    variant: str
    form: str
    sheet: bool
    last: str
    save: Path | None
    against: Path | None
    errors: bool


def evaluate_places(places: tuple[Path, ...], task: Task) -> None:
    """Print the report of one run; kept figures are read first, so that a wrong file costs no run."""
    against = kept_run(task.against) if task.against else None
    run = evaluate(
        places,
        load_lexicon(),
        variant=task.variant,
        form=cast(Literal["vtt", "json"], task.form),
        sheet=task.sheet,
        stage=cast(Literal["mentions", "claims", "ledger"], task.last),
    )
    if task.save:
        with whole_file(task.save) as stream:
            stream.write(run.model_dump_json())
    typer.echo(report(run, against, task.errors), nl=False)


def kept_run(file: Path) -> Run:
    """The run that `--save` kept; GoldError where the file holds none."""
    try:
        return Run.model_validate_json(file.read_text("utf-8"))
    except OSError as error:
        raise GoldError(f"cannot be read: {error.strerror}", file=str(file)) from None
    except (ValidationError, UnicodeDecodeError):
        raise GoldError("not the figures of a run that --save kept", file=str(file)) from None
