"""Searches that are kept, one JSON object a line in a file beside the archive."""

import json
import os
from pathlib import Path
from threading import Lock

from pydantic import BaseModel, ValidationError

_LOCK = Lock()


class Saved(BaseModel, frozen=True, extra="forbid"):
    """A search by name: the address of its page within the room, who kept it and when (UTC)."""

    name: str
    address: str
    who: str
    when: str


def read_saved(file: Path) -> tuple[Saved, ...]:
    """Those in the file, in order; a line that is none is passed over."""
    if not file.is_file():
        return ()
    found = []
    for line in file.read_text(encoding="utf-8").splitlines():
        try:
            found.append(Saved.model_validate_json(line))
        except ValidationError:
            continue
    return tuple(found)


def keep_saved(file: Path, saved: Saved) -> None:
    """The search kept, in the place of one of the same name."""
    with _LOCK:
        _write(file, (*(one for one in read_saved(file) if one.name != saved.name), saved))


def drop_saved(file: Path, name: str) -> None:
    """The search of that name kept no longer."""
    with _LOCK:
        _write(file, tuple(one for one in read_saved(file) if one.name != name))


def _write(file: Path, saved: tuple[Saved, ...]) -> None:
    part = file.with_name(f".{file.name}.part")
    part.write_text(
        "".join(json.dumps(one.model_dump(), ensure_ascii=False) + "\n" for one in saved), "utf-8"
    )
    os.replace(part, file)
