"""Labelled recordings: what was said, what it meant, and what counted."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Literal, TypeVar

from pydantic import BaseModel, Field, ValidationError, model_validator

from hikite.errors import GoldError
from hikite.records import Competitor, Sheet, Tally

SAME_STATUS = {"started": "running", "held": "completed"}
"""Statuses that some labelled holds use for these."""


class Line(BaseModel, frozen=True):
    """One line of the talk as a careful listener wrote it down, with its times in seconds."""

    text: str
    speaker: str | None = None
    start_s: float
    end_s: float


class Truth(BaseModel, frozen=True):
    """One labelled mention. ``tallies`` are the stated score by side; fields not told are ``None``."""

    line: int
    said: str
    kind: str
    concept: str | None = None
    side: str | None = None
    status: str | None = None
    points: int | None = None
    seconds: int | None = None
    score: str | None = None
    accept: tuple[str, ...] = ()
    generic: bool = False
    misspoken: bool = False
    approx: bool = False
    nth: int = 1
    margin: int | None = None
    clock: Literal["remaining", "elapsed"] | None = None
    of: str | None = None
    bout: int = 1
    tallies: dict[str, Tally] = {}
    start_s: float
    end_s: float


class Row(BaseModel, frozen=True):
    """One row of the true score ledger: points, or a judo score or shido, for (shido: against) a side."""

    line: int
    side: str
    points: int | None = None
    score: str | None = None
    why: str = ""
    bout: int = 1
    start_s: float
    end_s: float


class Final(BaseModel, frozen=True):
    """How one bout truly ended."""

    tallies: dict[str, Tally]
    winner: str | None = None
    by: str | None = None


Labelled = TypeVar("Labelled", Truth, Row, Final)
One = TypeVar("One", Line, Truth, Row)


class Gold(BaseModel, frozen=True):
    """One labelled recording; ``sheets`` and ``finals`` hold one entry a bout."""

    id: str
    sheets: tuple[Sheet, ...]
    lines: tuple[Line, ...]
    truths: tuple[Truth, ...] = Field(repr=False)
    rows: tuple[Row, ...]
    finals: tuple[Final, ...]

    @model_validator(mode="after")
    def _check(self) -> "Gold":
        for truth in self.truths:
            if truth.said not in self.lines[truth.line].text:
                raise ValueError(f"line {truth.line} does not contain {truth.said!r}")
        return self

    def called(self, sides: dict[str, str]) -> "Gold":
        """The same labels with other words for the sides."""
        return self.model_copy(
            update={
                "sheets": tuple(_sheet_called(one, sides) for one in self.sheets),
                "truths": tuple(_called(one, sides, "side") for one in self.truths),
                "rows": tuple(_called(one, sides, "side") for one in self.rows),
                "finals": tuple(_called(one, sides, "winner") for one in self.finals),
            }
        )


def _sheet_called(sheet: Sheet, sides: dict[str, str]) -> Sheet:
    renamed = (one.model_copy(update={"side": sides[one.side]}) for one in sheet.competitors)
    return sheet.model_copy(update={"competitors": tuple(renamed)})


def _called(one: Labelled, sides: dict[str, str], key: str) -> Labelled:
    """A label with its side, and those of its tallies, in other words."""
    renamed: dict[str, object] = {key: sides.get(getattr(one, key) or "")}
    if not isinstance(one, Row):
        renamed["tallies"] = {sides[side]: tally for side, tally in one.tallies.items()}
    return one.model_copy(update=renamed)


def read_gold(path: Path) -> Gold:
    """One ``.gold.json`` file as ``Gold``; GoldError names the file and what is wrong in it, and where."""
    try:
        return _gold(json.loads(path.read_text(encoding="utf-8")))
    except OSError as error:
        raise GoldError(f"cannot be read: {error.strerror}", file=str(path)) from None
    except json.JSONDecodeError as error:
        raise GoldError(f"not a gold file: {error.msg}", file=str(path), line=error.lineno) from None
    except ValidationError as error:
        raise GoldError(f"not a gold file: {_wrong(error)}", file=str(path)) from None
    except KeyError as error:
        raise GoldError(f"not a gold file: no {error} where one is needed", file=str(path)) from None
    except (ValueError, IndexError, TypeError) as error:
        raise GoldError(f"not a gold file: {error}", file=str(path)) from None


def _gold(raw: dict[str, object]) -> Gold:
    lines = _each(Line, raw, "lines", lambda line: line)
    return Gold(
        id=str(raw["id"]),
        sheets=_sheets(raw),
        lines=lines,
        truths=_each(Truth, raw, "events", lambda event: _timed(event, lines)),
        rows=_each(Row, raw, "ledger", lambda row: _timed(row, lines)),
        finals=tuple(_final(final) for final in _per_bout(raw["final"])),
    )


def _each(
    made: type[One], raw: dict[str, object], key: str, told: Callable[[dict[str, object]], dict[str, object]]
) -> tuple[One, ...]:
    """The entries of a list in the file; ValueError tells which of them is wrong, from 0."""
    found = []
    for number, entry in enumerate(_list(raw[key])):
        try:
            found.append(made.model_validate(told(entry)))
        except ValidationError as error:
            raise ValueError(f"{key} {number}: {_wrong(error)}") from None
        except (KeyError, IndexError) as error:
            raise ValueError(f"{key} {number}: no line {entry.get('line')}") from error
    return tuple(found)


def _wrong(error: ValidationError) -> str:
    first = error.errors()[0]
    return "".join([f"{part}: " for part in first["loc"]]) + first["msg"]


def _list(value: object) -> list[dict[str, object]]:
    if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
        raise TypeError("a list of objects was expected")
    return value


def _per_bout(value: object) -> list[dict[str, object]]:
    return _list(value if isinstance(value, list) else [value])


def _timed(entry: dict[str, object], lines: tuple[Line, ...]) -> dict[str, object]:
    """The entry with its line's times, its null fields dropped and its per-side scores gathered."""
    line = lines[int(str(entry["line"]))]
    told = {key: value for key, value in entry.items() if value is not None}
    tallies = {side: _tally(told.pop(side)) for side in ("red", "white", "blue") if side in told}
    if "status" in told:
        told["status"] = SAME_STATUS.get(str(told["status"]), told["status"])
    return {"start_s": line.start_s, "end_s": line.end_s} | told | {"tallies": tallies}


def _tally(value: object) -> Tally:
    """A stated score of one side: a number of points, or judo scores by name (null: not said)."""
    if isinstance(value, int):
        return Tally(points=value)
    if not isinstance(value, dict):
        raise TypeError(f"neither points nor judo scores: {value!r}")
    return Tally.model_validate({str(key).replace("-", "_"): count for key, count in value.items()})


def _final(raw: dict[str, object]) -> Final:
    tallies = {side: _tally(raw[side]) for side in ("red", "white", "blue") if side in raw}
    return Final.model_validate({"tallies": tallies, "winner": raw.get("winner"), "by": raw.get("by")})


def _sheets(raw: dict[str, object]) -> tuple[Sheet, ...]:
    """What a bout sheet would tell of each bout; a judo bout's length is the rules' own."""
    rulesets = raw["ruleset"] if isinstance(raw["ruleset"], list) else [raw["ruleset"]]
    durations = raw["duration_s"] if isinstance(raw["duration_s"], list) else [raw["duration_s"]]
    found = []
    for index, sides in enumerate(_per_bout(raw["competitors"])):
        ruleset = str(rulesets[min(index, len(rulesets) - 1)])
        length = durations[min(index, len(durations) - 1)]
        competitors = tuple(_competitor(side, told) for side, told in sides.items())
        duration = None if ruleset.startswith("judo") else length
        found.append(Sheet(competitors=competitors, ruleset=ruleset, duration_s=duration))
    return tuple(found)


def _competitor(side: str, told: object) -> Competitor:
    if not isinstance(told, dict):
        raise TypeError(f"competitor {side} is not an object")
    return Competitor(side=side, name=told.get("name"), nation=told.get("from"))
