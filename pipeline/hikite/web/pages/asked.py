"""What a form of the reading room asks, to a decision's change."""

import re
from typing import get_args

from pydantic import ValidationError
from starlette.exceptions import HTTPException

from hikite.archive import Archive
from hikite.archive.decisions import Change
from hikite.archive.errors import QueryError
from hikite.archive.kept import KeptEvent
from hikite.archive.searches.namings import naming
from hikite.records import ClaimKind, Status
from hikite.terms.words import normalised
from hikite.web.pages.answers import Form

KINDS = tuple(kind for kind in get_args(ClaimKind) if kind not in ("clock", "stated_score"))
"""What can be added: no readings, which are nothing without their numbers."""
STATUSES: tuple[str, ...] = get_args(Status)
KEEP, NOBODY = "", "nobody"
_TIME = re.compile(r"(?:(\d+):)?(\d{1,3}):(\d{1,2}(?:\.\d{1,3})?)", re.ASCII)


def change_of(archive: Archive, form: Form, stands: KeptEvent | None = None) -> Change:
    """The fields that were filled in; of an event that is corrected those that say something else than it."""
    given: dict[str, object] = {}
    if form("concept"):
        given["concept"] = concept_of(archive, form("concept"))
    elif form("kind") == "score":
        given["concept"] = form("score_class") or "points"
    if form("side") != KEEP:
        given["side"] = None if form("side") == NOBODY else form("side")
    for name in ("kind", "status", "score_class", "note"):
        if form(name):
            given[name] = form(name)
    if form("points"):
        given["points"] = _whole(form("points"))
    if form("time"):
        given["start_ms"] = ms_of(form("time"))
    if stands is not None:
        given = {name: value for name, value in given.items() if getattr(stands, name, given) != value}
    try:
        return Change.model_validate(given)
    except ValidationError as error:
        first = error.errors()[0]
        raise HTTPException(400, f"{first['loc'][0]}: {first['msg']}") from None


def concept_of(archive: Archive, name: str) -> str:
    """The concept that a name, a label or an id means; a refusal that asks back where it means several."""
    row = archive.db.execute(
        "SELECT id FROM concepts WHERE id = :name UNION ALL SELECT id FROM concepts WHERE label = :name"
        " UNION ALL SELECT id FROM concepts WHERE id = :plain LIMIT 1",
        {"name": name, "plain": normalised(name).replace(" ", "-")},
    ).fetchone()
    if row:
        return str(row[0])
    try:
        found = naming(archive, name)
    except QueryError as error:
        raise HTTPException(400, str(error)) from None
    if len(found.concepts) > 1:
        raise HTTPException(400, f"“{name}” may be {' or '.join(found.labels)}: which?")
    return found.concepts[0]


def ms_of(time: str) -> int:
    """``3:07``, ``1:02:03.5`` in milliseconds."""
    told = _TIME.fullmatch(time)
    if told is None:
        raise HTTPException(400, f"A time is like 3:07 or 1:02:03.5, not “{time}”.")
    hours, minutes, seconds = told.groups()
    return (int(hours or 0) * 60 + int(minutes)) * 60_000 + round(float(seconds) * 1000)


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 4):
        raise HTTPException(400, f"Points are a whole number, not “{text}”.")
    return int(text)
