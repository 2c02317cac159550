"""Corrections that people accepted, kept in local files apart from the shipped lexicon."""

import json
import os
import tomllib
from pathlib import Path

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.files import TomlFile
from hikite.terms.words import Concept, normalised


class Alias(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """These ``words`` meant that ``concept``: who found so, when (ISO 8601), in which recording and where."""

    words: str
    concept: str
    language: str
    who: str
    when: str
    where: str


class AliasFile(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The whole of one alias file: a list of ``[[alias]]`` tables."""

    alias: tuple[Alias, ...] = ()


def read_aliases(file: Path, concepts: dict[str, Concept]) -> tuple[Alias, ...]:
    """The corrections in one file, none where it is missing; LexiconError with file and line when broken."""
    if not file.is_file():
        return ()
    text = TomlFile(file)
    try:
        found = AliasFile.model_validate(text.data()).alias
    except ValidationError as problem:
        first = problem.errors()[0]
        number = next((part for part in first["loc"] if isinstance(part, int)), 0)
        key = str(first["loc"][-1])
        raise LexiconError(
            f"alias {number + 1}, {key}: {first['msg']}", file=str(file), line=_line(text.text, number, key)
        ) from problem
    for number, alias in enumerate(found):
        if alias.concept not in concepts:
            raise LexiconError(
                f"alias {number + 1}: no such concept, {alias.concept}",
                file=str(file),
                line=_line(text.text, number, "concept"),
            )
        if not normalised(alias.words):
            raise LexiconError(
                f"alias {number + 1}: no words", file=str(file), line=_line(text.text, number, "words")
            )
    return found


def write_alias(file: Path, alias: Alias) -> None:
    """The correction appended to the file, which is made where it is missing; nothing there is changed."""
    rows = [f"{key} = {json.dumps(value, ensure_ascii=False)}" for key, value in alias.model_dump().items()]
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("a", encoding="utf-8") as out:
        out.write("\n".join(("[[alias]]", *rows, "", "")))


def drop_alias(file: Path, alias: Alias) -> bool:
    """Whether the correction was in the file, which no longer has it (the last, of several alike)."""
    if not file.is_file():
        return False
    text = file.read_text("utf-8")
    found = AliasFile.model_validate(tomllib.loads(text)).alias
    number = max((n for n, one in enumerate(found) if one == alias), default=None)
    if number is None:
        return False
    lines = text.splitlines(keepends=True)
    heads = [n for n, line in enumerate(lines) if line.startswith("[[alias]]")]
    stop = next((n for n in range(heads[number] + 1, len(lines)) if not _is_key(lines[n])), len(lines))
    after = lines[stop + 1 :] if stop < len(lines) and not lines[stop].strip() else lines[stop:]
    part = file.with_name(f".{file.name}.part")
    part.write_text("".join([*lines[: heads[number]], *after]), "utf-8")
    os.replace(part, file)
    return True


def _is_key(line: str) -> bool:
    return line.split("=")[0].strip() in Alias.model_fields


def _line(text: str, number: int, key: str) -> int | None:
    """The line of a key in the alias of that number, of its head where the key is not there."""
    at, found = -1, None
    for line_number, line in enumerate(text.splitlines(), 1):
        if line.startswith("[[alias]]"):
            at += 1
            if at == number:
                found = line_number
        elif at == number and line.split("=")[0].strip() == key:
            return line_number
    return found
