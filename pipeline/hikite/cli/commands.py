"""Every command and its options; what does the work is imported only once a command runs."""

import gc
import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from hikite import __version__
from hikite.cli import archiving, datasets, numbers, plotting, rooms, searching, sharding
from hikite.errors import HikiteError, LexiconError

REFUSED, BROKEN_LEXICON = 1, 3
_OF_THE_WHOLE = ("--help", "-h", "--version", "--install-completion", "--show-completion")
CODES = (
    "Exit codes: 0 all went well; 1 a file could not be read or written (the others were); "
    "2 the command line is wrong; 3 the lexicon or a rule set is broken; 130 interrupted."
)


class To(StrEnum):
    """What ``--to`` takes: the sheet for the terminal, or a format of ``hikite.outputs``."""

    sheet = "sheet"
    jsonl = "jsonl"
    json = "json"
    csv = "csv"
    markdown = "markdown"
    chapters = "chapters"
    list = "list"
    captions = "captions"
    spans = "spans"
    annotations = "annotations"
    schema_org = "schema-org"
    metadata = "metadata"
    pbcore = "pbcore"
    dublin_core = "dublin-core"
    columns = "columns"


class Readable(StrEnum):
    """The file formats in which labelled recordings lie."""

    vtt = "vtt"
    json = "json"


class Stage(StrEnum):
    """How far along the path an evaluation looks."""

    mentions = "mentions"
    claims = "claims"
    ledger = "ledger"


app = typer.Typer(
    name="hikite",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    epilog=CODES,
    context_settings={"help_option_names": ["--help", "-h"]},
)

SheetOption = Annotated[
    Path | None,
    typer.Option("--sheet", help="Bout sheet to use instead of FILE.sheet.toml.", show_default=False),
]
RulesOption = Annotated[
    str | None, typer.Option("--rules", help="Rule set, a key of `hikite rules`.", show_default=False)
]
AliasesOption = Annotated[
    list[Path] | None,
    typer.Option("--aliases", help="A file of corrected names to go by besides.", show_default=False),
]
Several = Annotated[
    bool, typer.Option("--all", help="Sheet: also recaps, suppositions, clocks, scores said.")
]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"hikite {__version__}")
        raise typer.Exit


@app.callback()
def hikite(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version and exit.")
    ] = False,
) -> None:
    """Timed commentary of a grappling bout in, a bout record out. `hikite FILE` is `hikite read FILE`."""


@app.command(epilog=CODES)
def read(
    files: Annotated[list[Path], typer.Argument(help="Captions or recogniser files; - is standard input.")],
    to: Annotated[To, typer.Option("--to", help="What to write.")] = To.sheet,
    out: Annotated[
        str | None, typer.Option("--out", help="File, or FOLDER/ for a file each.", show_default=False)
    ] = None,
    sheet: SheetOption = None,
    rules: RulesOption = None,
    aliases: AliasesOption = None,
    least: Annotated[
        float, typer.Option("--least", min=0, max=1, help="Leave out what is less sure; scores stay.")
    ] = 0.0,
    everything: Several = False,
) -> None:
    """Read commentary and write the bout record: a sheet for the terminal unless --to says otherwise."""
    from hikite.cli.reading import Wish, read_all

    wish = Wish(to.value, out, sheet, rules, least, everything, tuple(aliases or ()))
    raise typer.Exit(read_all(tuple(files), wish))


@app.command()
def explain(
    file: Annotated[Path, typer.Argument(help="Captions or recogniser file; - is standard input.")],
    event: Annotated[str, typer.Argument(help="Id of an entry (b1.12, or 12) or a time (3:04).")],
    sheet: SheetOption = None,
    rules: RulesOption = None,
    aliases: AliasesOption = None,
) -> None:
    """Show why an entry says what it says: from the words to the number."""
    from hikite.cli.explaining import explain_event

    explain_event(file, event, sheet, rules, tuple(aliases or ()))


@app.command()
def term(
    words: Annotated[list[str], typer.Argument(help="A name in any spelling, or what was heard.")],
) -> None:
    """Look up a term: its names, its family, how it is heard, what it may be confused with."""
    from hikite.cli.terms import show_term

    raise typer.Exit(show_term(" ".join(words)))


@app.command()
def hints(
    rules: Annotated[str, typer.Option("--rules", help="Rule set, a key of `hikite rules`.")],
    count: Annotated[int, typer.Option("--count", min=1, help="How many names.")] = 60,
) -> None:
    """List the names a bout is likely to need, for a speech recogniser that takes such a list."""
    from hikite.cli.terms import show_hints

    show_hints(rules, count)


@app.command()
def rules(
    key: Annotated[str | None, typer.Argument(help="A rule set to show.", show_default=False)] = None,
) -> None:
    """List the rule sets, or show one with the source of each row."""
    from hikite.cli.rules import show_rules

    show_rules(key)


@app.command()
def schema(
    whole: Annotated[
        bool, typer.Option("--document", help="Of the JSON document, not of one entry.")
    ] = False,
) -> None:
    """Print the JSON Schema of the record."""
    from hikite.outputs.schemas import entry_schema, record_schema

    typer.echo(record_schema() if whole else entry_schema(), nl=False)


@app.command()
def evaluate(
    places: Annotated[list[Path], typer.Argument(help="Gold files, or folders of them.")],
    variant: Annotated[str, typer.Option(help="Which version of the talk: clean, base, tiny.")] = "clean",
    form: Annotated[Readable, typer.Option(help="Its file format.")] = Readable.vtt,
    no_sheet: Annotated[bool, typer.Option("--no-sheet", help="From the talk alone.")] = False,
    last: Annotated[Stage, typer.Option(help="The last stage to look at.")] = Stage.ledger,
    save: Annotated[
        Path | None, typer.Option(help="Keep this run's figures in a file.", show_default=False)
    ] = None,
    against: Annotated[
        Path | None, typer.Option(help="Show gains and losses against kept figures.", show_default=False)
    ] = None,
    errors: Annotated[bool, typer.Option("--errors", help="List every error.")] = False,
) -> None:
    """Compare records with labelled recordings and report the figures."""
    from hikite.cli.evaluating import Task, evaluate_places

    task = Task(variant, form.value, not no_sheet, last.value, save, against, errors)
    evaluate_places(tuple(places), task)


archiving.add_to(app)
searching.add_to(app)
numbers.add_to(app)
plotting.add_to(app)
sharding.add_to(app)
datasets.add_to(app)
rooms.add_to(app)


def worded(words: list[str]) -> list[str]:
    """The command line with its verb: ``FILE …`` is short for ``read FILE …``."""
    verbs = {command.callback.__name__ for command in app.registered_commands if command.callback}
    if not words or words[0] in verbs or words[0] in _OF_THE_WHOLE:
        return words
    return ["read", *words]


def run() -> None:
    """The command as installed; one line for each refusal, never a traceback."""
    # The lexicon is a million small objects that live to the end: looking through them again and again while
    # they are made costs a fifth of the start.
    gc.set_threshold(200_000, 20, 20)
    try:
        app(worded(sys.argv[1:]))
    except LexiconError as error:
        typer.echo(str(error), err=True)
        sys.exit(BROKEN_LEXICON)
    except HikiteError as error:
        typer.echo(str(error), err=True)
        sys.exit(REFUSED)
