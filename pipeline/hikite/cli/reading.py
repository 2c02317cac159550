"""Files in, records out: one at a time, each whole or not at all."""

import io
import sys
import traceback
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple, TextIO

import typer

from hikite.cli.sheets import sheet_text
from hikite.errors import HikiteError, LexiconError
from hikite.outputs import FORMATS, Format, record_of
from hikite.outputs.files import whole_file
from hikite.process import Lexicon, load_lexicon, process
from hikite.records import Recording, Sheet
from hikite.sheets import find_sheet, read_sheet
from hikite.transcripts import read as read_transcript

_WARNINGS = 5
STANDARD_INPUT = Path("-")


class Wish(NamedTuple):
    """What the command line asks for."""

    to: str
    out: str | None
    sheet: Path | None
    rules: str | None
    least: float
    everything: bool
    aliases: tuple[Path, ...] = ()


def read_all(files: tuple[Path, ...], wish: Wish) -> int:
    """Every file read and written as wished; 0, or 1 where one was refused."""
    form = next((one for one in FORMATS if one.name == wish.to), None)
    places = _places(files, wish, form)
    lexicon = load_lexicon(aliases=wish.aliases)
    check_rules(wish.rules, lexicon)
    with _sink(wish, form, each=bool(places)) as sink:
        refused = 0
        for number, file in enumerate(_with_progress(files)):
            try:
                recording = recording_of(file, wish.sheet, wish.rules, lexicon)
                text = _text(recording, lexicon, wish, form, sink.stream, first=sink.written == 0)
                if places:
                    with whole_file(places[number]) as stream:
                        stream.write((form.head if form else "") + text)
                else:
                    sink.write(text)
            except LexiconError:
                raise
            except HikiteError as error:
                refused += _refuse(str(error))
            except OSError as error:
                if isinstance(error, BrokenPipeError):
                    raise
                refused += _refuse(f"{error.filename or file}: cannot be written: {error.strerror}")
            except Exception as error:
                refused += _refuse(f"{file}: {_fault(error)}")
    return 1 if refused else 0


def recording_of(file: Path, sheet: Path | None, rules: str | None, lexicon: Lexicon) -> Recording:
    """One recording with its bout sheet, its mendings reported on standard error."""
    if file == STANDARD_INPUT:
        transcript = read_transcript(sys.stdin.buffer, name="-")
    else:
        transcript = read_transcript(file)
    for mending in transcript.mendings[:_WARNINGS]:
        typer.echo(f"{mending.file}:{mending.line}: {mending.problem}", err=True)
    more = len(transcript.mendings) - _WARNINGS
    if more > 0:
        typer.echo(f"{transcript.source}: {more} more mended; --to json lists them all", err=True)
    beside = sheet or (None if file == STANDARD_INPUT else find_sheet(file))
    told = read_sheet(beside) if beside else Sheet()
    return process(transcript, lexicon, told.model_copy(update={"ruleset": rules}) if rules else told)


def check_rules(key: str | None, lexicon: Lexicon) -> None:
    """A usage error where there is no such rule set."""
    known = lexicon.rulesets.rulesets
    if key is not None and key not in known:
        raise typer.BadParameter(
            f"no rule set {key!r}; there are {', '.join(sorted(known))}", param_hint="--rules"
        )


def _places(files: tuple[Path, ...], wish: Wish, form: Format | None) -> tuple[Path, ...]:
    """A file to write for each recording, or none where all go into one stream."""
    if files.count(STANDARD_INPUT) > 1:
        raise typer.BadParameter("standard input can be read once")
    if wish.sheet is not None and len(files) > 1:
        raise typer.BadParameter("one bout sheet is of one recording", param_hint="--sheet")
    out, suffix = Path(wish.out) if wish.out else None, form.suffix if form else ".sheet.txt"
    if out is None or not (out.is_dir() or str(wish.out).endswith(("/", "\\")) or _parted(files, form)):
        if form and not form.joins and len(files) > 1:
            raise typer.BadParameter(f"several {form.name} go into a folder; name one with --out FOLDER/")
        if out is not None and any(_same(out, file) for file in files):
            raise typer.BadParameter(f"{out} is read from", param_hint="--out")
        return ()
    if out.is_file():
        raise typer.BadParameter(f"{out} is a file; a folder is needed for several", param_hint="--out")
    places = tuple(out / f"{_name(file)}{suffix}" for file in files)
    twice = next((place for place in places if places.count(place) > 1), None)
    if twice:
        raise typer.BadParameter(f"two recordings would be written to {twice}", param_hint="--out")
    return places


def _parted(files: tuple[Path, ...], form: Format | None) -> bool:
    """Whether several files that cannot be joined must go to a folder."""
    return len(files) > 1 and form is not None and not form.joins


def _name(file: Path) -> str:
    return "standard-input" if file == STANDARD_INPUT else file.name


def _same(one: Path, other: Path) -> bool:
    return one.exists() and other.exists() and one.samefile(other)


def _text(
    recording: Recording, lexicon: Lexicon, wish: Wish, form: Format | None, stream: TextIO, first: bool
) -> str:
    record = record_of(recording, lexicon, wish.least)
    if form is None:
        text = sheet_text(record, lexicon, stream, wish.everything)
        return text if first else f"\n{text}"
    return form.body(recording, record, lexicon)


class _Sink:
    """The one stream that several recordings go to; the format's head comes before the first."""

    def __init__(self, stream: TextIO, head: str) -> None:
        self.stream, self.head, self.written = stream, head, 0

    def write(self, text: str) -> None:
        self.stream.write(text if self.written else self.head + text)
        self.stream.flush()
        self.written += 1


@contextmanager
def _sink(wish: Wish, form: Format | None, each: bool) -> Iterator[_Sink]:
    head = form.head if form else ""
    if wish.out is None or each:
        if form and isinstance(sys.stdout, io.TextIOWrapper):
            sys.stdout.reconfigure(encoding="utf-8", newline="\n")
        yield _Sink(io.StringIO() if each else sys.stdout, head)
        return
    kept = io.StringIO()
    sink = _Sink(kept, head)
    yield sink
    if sink.written:
        try:
            with whole_file(Path(wish.out)) as stream:
                stream.write(kept.getvalue())
        except OSError as error:
            raise HikiteError(f"cannot be written: {error.strerror}", file=wish.out) from None


def _with_progress(files: tuple[Path, ...]) -> Iterable[Path]:
    """The files, behind a bar on a terminal's standard error when there are several."""
    if len(files) < 2 or not sys.stderr.isatty():
        return files
    from rich.console import Console
    from rich.progress import track

    return track(files, description="reading", console=Console(stderr=True), transient=True)


def _refuse(line: str) -> int:
    typer.echo(line, err=True)
    return 1


def _fault(error: Exception) -> str:
    """A fault of the tool itself in one line, with where it happened, so that it can be reported."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    what = f"{type(error).__name__}: {error} ({Path(last.filename).name}:{last.lineno})"
    return f"a fault of hikite, please report it: {what}"
