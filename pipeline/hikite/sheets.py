"""The bout sheet: a small TOML file beside a recording that tells who fights, where and under which rules."""

import re
import tomllib
from datetime import date
from pathlib import Path
from typing import Annotated

from pydantic import AfterValidator, BaseModel, Field, ValidationError

from hikite.errors import SheetError
from hikite.records import Competitor, Sheet
from hikite.terms.places import lexicon_root

SUFFIX = ".sheet.toml"


def _day(text: str) -> str:
    date.fromisoformat(text)
    return text


def _rules(key: str) -> str:
    folder = lexicon_root() / "rulesets"
    known = sorted(
        file.name.removesuffix(".toml") for file in folder.iterdir() if file.name.endswith(".toml")
    )
    if key not in known:
        raise ValueError(f"no rule set {key!r}; there are {', '.join(known)}")
    return key


class Contestant(BaseModel, frozen=True, extra="forbid"):
    """One ``[[competitors]]`` table: ``side`` is the colour in the rules, ``aliases`` other names."""

    side: Annotated[str, Field(pattern="^(red|blue|white)$")]
    name: str | None = None
    nation: str | None = None
    aliases: tuple[str, ...] = ()


class SheetFile(BaseModel, frozen=True, extra="forbid"):
    """The whole file; every key may be left out."""

    title: str | None = None
    date: Annotated[str, AfterValidator(_day)] | None = None
    ruleset: Annotated[str, AfterValidator(_rules)] | None = None
    duration_s: Annotated[int, Field(gt=0, le=3600)] | None = None
    address: str | None = None
    competitors: Annotated[tuple[Contestant, ...], Field(max_length=2)] = ()


def find_sheet(recording: Path) -> Path | None:
    """The sheet beside a recording, ``<recording>.sheet.toml``, where there is one."""
    beside = recording.with_name(recording.name + SUFFIX)
    return beside if beside.is_file() else None


def read_sheet(file: Path) -> Sheet:
    """The bout sheet in a file; SheetError with file and line where it breaks its rules."""
    try:
        text = file.read_text("utf-8-sig")
    except OSError as error:
        raise SheetError(f"cannot be read: {error.strerror}", file=str(file)) from None
    except UnicodeDecodeError:
        raise SheetError("a bout sheet is UTF-8 text", file=str(file)) from None
    try:
        told = SheetFile.model_validate(_plain(tomllib.loads(text)))
    except tomllib.TOMLDecodeError as error:
        place = re.search(r"at line (\d+)", str(error))
        raise SheetError(
            f"broken TOML: {error}", file=str(file), line=int(place[1]) if place else None
        ) from None
    except ValidationError as error:
        first = error.errors()[0]
        raise SheetError(
            _problem(first["loc"], first["msg"]), file=str(file), line=_line(text, first["loc"])
        ) from None
    sides = [one.side for one in told.competitors]
    if len(set(sides)) < len(sides):
        raise SheetError(
            f"two competitors in {sides[0]}", file=str(file), line=_line(text, ("competitors", 1))
        )
    return Sheet(
        **told.model_dump(exclude={"competitors"}),
        competitors=tuple(Competitor(**one.model_dump()) for one in told.competitors),
    )


def _plain(data: dict[str, object]) -> dict[str, object]:
    """TOML's own dates as ISO 8601 text, so that ``date = 2026-05-09`` needs no quotes."""
    return {key: value.isoformat() if isinstance(value, date) else value for key, value in data.items()}


def _problem(place: tuple[int | str, ...], message: str) -> str:
    name = ".".join(str(step + 1) if isinstance(step, int) else step for step in place)
    if message == "Extra inputs are not permitted":
        return f"unknown key {name}"
    return f"{name}: {message.removeprefix('Value error, ')}"


def _line(text: str, place: tuple[int | str, ...]) -> int | None:
    """The line of a key, or of the table that ought to have it."""
    table = place[1] if len(place) > 1 and isinstance(place[1], int) else None
    at, found = -1, None
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip().startswith("[["):
            at += 1
            if at == table:
                found = number
        here = at == table if table is not None else at < 0
        if here and re.match(rf"\s*\"?{re.escape(str(place[-1]))}\"?\s*=", line):
            return number
    return found
