"""The lexicon's files, read strictly: an unknown key or a wrong value names its file and line."""

import re
import tomllib
from importlib.resources.abc import Traversable
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.records import Kind
from hikite.terms.words import Mark

Row = TypeVar("Row", bound=BaseModel)


class ConceptRow(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One table of ``concepts/*.toml``; the table's name is the id."""

    kind: Kind
    family: str | None = None
    tradition: str
    generic: bool = False
    same_as: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    answers: tuple[str, ...] = ()
    gloss: str
    source: str = ""
    mark: Mark
    caution: bool = False
    afoot: bool = False
    weight: dict[str, int] = {}
    hint: dict[str, str] = {}
    under: dict[str, str] = {}


class NamesRow(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One table of ``<lang>/terms.toml``, named by the concept.

    ``source`` and ``mark`` are of ``names``; ``also`` and ``verbs`` are common practice without a source,
    ``heard`` are misspellings. ``weak`` lists forms of the others that need context.
    """

    names: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    verbs: tuple[str, ...] = ()
    heard: tuple[str, ...] = ()
    weak: tuple[str, ...] = ()
    source: str = ""
    mark: Mark = "memory"


class AmbiguousRow(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One table of ``<lang>/ambiguous.toml``, named by the form; ``concepts`` likeliest first."""

    concepts: tuple[str, ...]
    weak: bool = False
    note: str = ""


class TomlFile:
    """One file's text and name; finds the line of a table or key for error messages."""

    def __init__(self, file: Traversable) -> None:
        self.name = str(file)
        self.text = file.read_text("utf-8")

    def data(self) -> dict[str, object]:
        """The file as TOML has it; LexiconError with the line where it is broken."""
        try:
            return tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as problem:
            place = re.search(r"at line (\d+)", str(problem))
            line = int(place[1]) if place else self.text.count("\n") + (not self.text.endswith("\n"))
            raise LexiconError(f"broken TOML: {problem}", file=self.name, line=line) from problem

    def rows(self, row: type[Row]) -> dict[str, Row]:
        """The file's tables, checked; LexiconError on an unknown key or a wrong value."""
        data = self.data()
        try:
            return {table: row.model_validate(data[table]) for table in data}
        except ValidationError:
            return {table: self._row(row, table, data[table]) for table in data}

    def _row(self, row: type[Row], table: str, value: object) -> Row:
        try:
            return row.model_validate(value)
        except ValidationError as problem:
            first = problem.errors()[0]
            keys = [str(part) for part in first["loc"]]
            where = ".".join((table, *keys))
            raise self.error(f"{where}: {first['msg']}", table, *keys[:1]) from problem

    def error(self, problem: str, table: str, key: str = "") -> LexiconError:
        """An error at the key of a table, at the table where the key is not found."""
        return LexiconError(problem, file=self.name, line=self.line(table, key))

    def line(self, table: str, key: str = "") -> int | None:
        """The line of a key inside a table, from 1; the table's own line without one."""
        heads = (f"[{table}]", f'["{table}"]')
        found = None
        for number, line in enumerate(self.text.splitlines(), 1):
            if line.startswith("["):
                if found is not None:
                    break
                if line.split("#")[0].strip() in heads:
                    found = number
            elif found is not None and key and line.split("=")[0].strip(' "') == key:
                return number
        return found
