"""How a page answers: a template filled in, a form taken in."""

import html
from collections.abc import Awaitable, Callable
from functools import lru_cache
from hmac import compare_digest
from typing import Protocol
from urllib.parse import parse_qs

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from hikite import __version__
from hikite.outputs.phrases import CAUTION, percent, stamp
from hikite.web.guards import reviewer_of, seal_of
from hikite.web.rooms import Room
from hikite.web.verses import Run

_STRANGE = (
    "This form is not from this browser's page, or the room was opened anew since: load the page again."
)
MOST = 64_000
"""Bytes that a form may have."""


class Form(Protocol):
    """The fields that were sent; a field that was not is empty."""

    def __call__(self, name: str) -> str:
        """The field's text, without spaces around it."""
        ...


Taking = Callable[[Request, Room, Form], Response]


@lru_cache(maxsize=1)
def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("hikite.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(stamp=stamp, percent=percent, spoken=spoken)
    made.globals.update(caution=CAUTION, version=__version__)
    return made


def spoken(runs: tuple[Run, ...], heard: object, everything: object, bare: object) -> Markup:
    """The words of a statement, escaped, with the marks under them and the numbers of their notes.

    Where they can be heard, each word has its time. ``bare`` are without numbers; ``everything`` has those of
    quiet notes too. By hand, since a template takes four times as long for the thousands of runs of a talk.
    """
    parts = []
    for run in runs:
        words = _words(run, heard)
        if run.entry:
            link = "" if bare or (run.quiet and not everything) else _ref(run)
            faint = " faint" if run.quiet else ""
            words = f'<span class="m k-{run.kind} g-{run.grade}{faint}">{words}{link}</span>'
        parts.append(words)
    return Markup(" ".join(parts))


def _ref(run: Run) -> str:
    here = f'href="#n-{run.entry}" id="w-{run.entry}" aria-label="note {run.number}"'
    return f'\u2060<a class="ref" {here}>{run.number}</a>'


def _words(run: Run, heard: object) -> str:
    if not heard:
        return html.escape("".join(word.text for word in run.words).rstrip())
    whole = "".join(f'<span data-at="{word.at_ms}">{html.escape(word.text)}</span>' for word in run.words)
    # The space behind the last word stands outside of its line.
    return whole.removesuffix(" </span>") + ("</span>" if whole.endswith(" </span>") else "")


def prepare() -> None:
    """Read every template."""
    for name in _templates().list_templates():
        _templates().get_template(name)


def room_of(request: Request) -> Room:
    """The room that this request came to."""
    room = request.app.state.room
    assert isinstance(room, Room)
    return room


def page(request: Request, template: str, *, code: int = 200, **told: object) -> HTMLResponse:
    """The template with what it is told, who reads, and the seal for its forms."""
    room = room_of(request)
    text = _templates().get_template(template).render(
        reviewer=reviewer_of(request),
        seal=seal_of(room.secret, request.state.seat),
        read_only=room.arrangement.read_only,
        here=str(request.url.path) + (f"?{request.url.query}" if request.url.query else ""),
        **told,
    )  # fmt: skip
    return HTMLResponse(text, code)


def back(to: str) -> Response:
    """Go on to another page of this room; anything that leads elsewhere leads to the shelves."""
    inside = to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable()
    return RedirectResponse(to if inside else "/", 303)


def taken(take: Taking) -> Callable[[Request], Awaitable[Response]]:
    """A handler of forms: of fair size, with the seal of a page that was made for this very browser."""

    async def handle(request: Request) -> Response:
        body = b""
        async for part in request.stream():
            body += part
            if len(body) > MOST:
                raise HTTPException(413, "That is too much to take.")
        try:
            fields = parse_qs(body.decode(), keep_blank_values=True, max_num_fields=100)
        except ValueError:
            raise HTTPException(400, "That cannot be read.") from None

        def form(name: str) -> str:
            return fields.get(name, [""])[0].strip()

        room = room_of(request)
        wanted = seal_of(room.secret, request.state.seat)
        if not compare_digest(form("seal").encode(), wanted.encode()):
            raise HTTPException(403, _STRANGE)
        return await run_in_threadpool(take, request, room, form)

    return handle


def reviewer_needed(request: Request) -> str:
    """The reviewer; without a name nothing is decided."""
    reviewer = reviewer_of(request)
    if reviewer is None:
        raise HTTPException(403, "Sign with a name first: decisions tell whose they are.")
    return reviewer
