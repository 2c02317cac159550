"""The door: the token where one is wanted, and the reviewer's name."""

from hmac import compare_digest

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from hikite.web.guards import NAME, PASS, cleaned, cookie, passed
from hikite.web.pages.answers import Form, back, page, room_of, taken
from hikite.web.rooms import Room

_YEAR_S = 365 * 24 * 3600


def entrance(request: Request) -> Response:
    """Where the token is given."""
    if room_of(request).arrangement.token is None:
        return back("/")
    return page(request, "entrance.html", wrong=False)


def signs(request: Request) -> Response:
    """What the marks and keys mean."""
    return page(request, "signs.html")


def sign(request: Request, room: Room, form: Form) -> Response:
    """Take a reviewer's name, or an empty one to read as nobody."""
    name = cleaned(form("name"))
    if name is None and form("name"):
        raise HTTPException(400, "A name has up to 60 letters.")
    answer = back(form("to") or "/")
    answer.headers.append("set-cookie", cookie(NAME, name or "", _YEAR_S if name else 0))
    return answer


def _entered(request: Request, room: Room, form: Form) -> Response:
    token = room.arrangement.token or ""
    if not compare_digest(form("token").encode(), token.encode()):
        return page(request, "entrance.html", code=403, wrong=True)
    answer = back("/")
    answer.headers.append("set-cookie", cookie(PASS, passed(room.secret, token)))
    return answer


enter = taken(_entered)
