"""Searching the archive, narrowing what was found, keeping a search."""

from urllib.parse import urlencode

from markupsafe import Markup, escape
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.archive.errors import QueryError
from hikite.archive.searches.hits import Hit
from hikite.archive.writing import now
from hikite.web.facets import NAMES, Results, look
from hikite.web.guards import cleaned
from hikite.web.pages.answers import Form, back, page, reviewer_needed, room_of
from hikite.web.rooms import Room
from hikite.web.saved import Saved, drop_saved, keep_saved, read_saved

ON_A_PAGE = 30
EXAMPLES = (
    "uchi-mata completed",
    "hip throw by red scored",
    "grip:belt within 10 s before ura-nage",
    "foot sweep failed clock under 1:00",
    'said "under the old rules"',
)


def results(request: Request) -> Response:
    """What an expression finds, with its facets."""
    room = room_of(request)
    asked = {name: request.query_params.get(name, "").strip()[:300] for name in ("q", *NAMES)}
    sheet = request.query_params.get("page", "1")
    number = max(int(sheet), 1) if sheet.isascii() and sheet.isdigit() and len(sheet) < 7 else 1
    found: Results | None = None
    problem, column = "", None
    try:
        found = found_by(request, skip=(number - 1) * ON_A_PAGE, limit=ON_A_PAGE)
    except QueryError as error:
        problem, column = str(error), error.column

    def with_(**other: str) -> str:
        return "?" + urlencode({name: value for name, value in {**asked, **other}.items() if value})

    return page(
        request, "search.html", asked=asked, results=found, problem=problem, column=column, number=number,
        pages=_pages(found, number), with_=with_, saved=read_saved(room.arrangement.search_file),
        examples=EXAMPLES, quoted=quoted, code=400 if problem else 200,
    )  # fmt: skip


def found_by(request: Request, *, skip: int, limit: int) -> Results:
    """What the address's expression and facets find."""
    room = room_of(request)
    chosen = {name: request.query_params.get(name, "").strip()[:300] for name in NAMES}
    text = request.query_params.get("q", "").strip()[:1_000]
    with room.opened() as archive:
        return look(archive, room.lexicon, text, chosen, skip=skip, limit=limit)


def quoted(hit: Hit) -> Markup:
    """The statement with the hit's words marked, everything in it escaped."""
    at = hit.statement.find(hit.words) if hit.words else -1
    if at < 0:
        return escape(hit.statement)
    stop = at + len(hit.words)
    whole = hit.statement
    return Markup("{}<mark>{}</mark>{}").format(whole[:at], whole[at:stop], whole[stop:])


def _pages(found: Results | None, number: int) -> int:
    if found is None:
        return 1
    if found.found.total is None:
        return number + bool(found.found.hits)
    return max((found.found.total + ON_A_PAGE - 1) // ON_A_PAGE, 1)


def keep(request: Request, room: Room, form: Form) -> Response:
    """Keep this search under a name."""
    who, name = reviewer_needed(request), cleaned(form("name"))
    if name is None or not form("address").startswith("?"):
        raise HTTPException(400, "A search is kept under a name of up to 60 letters.")
    saved = Saved(name=name, address=form("address")[:2_000], who=who, when=now())
    keep_saved(room.arrangement.search_file, saved)
    return back(f"/search{saved.address}")


def drop(request: Request, room: Room, form: Form) -> Response:
    """Keep a search no longer."""
    reviewer_needed(request)
    drop_saved(room.arrangement.search_file, form("name"))
    return back("/search")
