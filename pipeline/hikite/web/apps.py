"""The reading room as an ASGI application."""

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from hikite.errors import HikiteError
from hikite.web.arrangements import Arrangement
from hikite.web.guards import Guard
from hikite.web.pages import ROUTES
from hikite.web.pages.answers import page, prepare
from hikite.web.rooms import Room


def reading_room(arrangement: Arrangement) -> Starlette:
    """The application; HikiteError where the archive cannot be opened."""
    room = Room(arrangement)
    with room.opened(write=not arrangement.read_only):
        pass

    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        await run_in_threadpool(_get_ready, room)
        yield

    app = Starlette(
        routes=[*ROUTES, Mount("/static", StaticFiles(packages=[("hikite.web", "static")]))],
        middleware=[
            Middleware(Guard, arrangement=arrangement, secret=room.secret),
            Middleware(GZipMiddleware, minimum_size=2_000, compresslevel=4),
        ],
        exception_handlers={HTTPException: _refused, HikiteError: _failed},
        lifespan=lifespan,
    )
    app.state.room = room
    return app


def _get_ready(room: Room) -> None:
    """What the first visitor should not wait for."""
    assert room.lexicon.terms
    prepare()
    with room.opened() as archive:
        (any_one,) = archive.db.execute("SELECT min(recording) FROM parts").fetchone()
        if any_one is not None:
            room.reading(archive, any_one, None)
    # The lexicon lives to the end: to look through its million objects again and again costs too much, and
    # so does a look through every long bout while it is laid out.
    gc.collect()
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)


async def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return page(request, "refusal.html", code=error.status_code, says=error.detail)


async def _failed(request: Request, error: Exception) -> Response:
    return page(request, "refusal.html", code=400, says=str(error))
