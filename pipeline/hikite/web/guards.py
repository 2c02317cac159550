"""Who may come in, and what a page may do: checked before any page is made, told in every answer."""

import hashlib
import hmac
import ipaddress
import secrets
from urllib.parse import quote, unquote, urlsplit

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from hikite.web.arrangements import LOOPBACK, Arrangement

SEAT, PASS, NAME = "hikite_seat", "hikite_pass", "hikite_name"
"""The cookies: which browser this is, that its token was right, and the reviewer's name."""
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""Content Security Policy Level 3 (W3C): everything from here, nothing inline."""
_HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}
_WRITES = frozenset({"POST", "PUT", "PATCH", "DELETE"})
_OPEN = ("/enter", "/static/")


class Guard:
    """Refuses foreign hosts (DNS rebinding), foreign writes, and whoever lacks the token."""

    def __init__(self, app: ASGIApp, arrangement: Arrangement, secret: bytes) -> None:
        self.app, self.arrangement, self.secret = app, arrangement, secret

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or hand on, one request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        request = Request(scope)
        seat = request.cookies.get(SEAT, "")
        fresh = not seat.isalnum() or len(seat) != 32
        scope.setdefault("state", {})["seat"] = seat = secrets.token_hex(16) if fresh else seat
        # A page opened by a link elsewhere comes without the cookie: it must not lose the one that is there.
        mine = request.headers.get("sec-fetch-site") != "cross-site"

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                headers.update(_HEADERS)
                if "cache-control" not in headers:
                    headers["cache-control"] = "no-store"
                if fresh and mine and not request.url.path.startswith("/static/"):
                    headers.append("set-cookie", cookie(SEAT, seat))
            await send(message)

        answer = self._refusal(request) or self.app
        await answer(scope, receive, sent)

    def _refusal(self, request: Request) -> Response | None:
        if not self._our_host(request.headers.get("host", "")):
            return PlainTextResponse("This room does not go by that name.", 421)
        if request.method in _WRITES:
            if not self._own_origin(request):
                return PlainTextResponse("Written to from another page: refused.", 403)
            if self.arrangement.read_only and request.url.path not in ("/enter", "/name"):
                return PlainTextResponse("This room is for reading only.", 403)
        token, path = self.arrangement.token, request.url.path
        if token is not None and not path.startswith(_OPEN):
            given = request.cookies.get(PASS, "")
            if not hmac.compare_digest(given.encode(), passed(self.secret, token).encode()):
                if request.method == "GET" and "text/html" in request.headers.get("accept", ""):
                    return RedirectResponse("/enter", 303)
                return PlainTextResponse("The token is wanted.", 401)
        return None

    def _our_host(self, host: str) -> bool:
        try:
            name = (urlsplit(f"//{host}").hostname or "").rstrip(".")
        except ValueError:
            return False
        if name in LOOPBACK or name in self.arrangement.names or name == self.arrangement.address:
            return True
        if self.arrangement.local:
            return False
        try:
            ipaddress.ip_address(name)
        except ValueError:
            return False
        return True

    def _own_origin(self, request: Request) -> bool:
        """Whether a write comes from a page of this very address."""
        origin = request.headers.get("origin")
        if request.headers.get("sec-fetch-site", "same-origin") != "same-origin" or origin is None:
            return False
        return urlsplit(origin).netloc == request.headers.get("host")


def cookie(name: str, value: str, age_s: int | None = None) -> str:
    """A cookie that goes nowhere else and that no script reads (RFC 6265bis)."""
    age = "" if age_s is None else f"; Max-Age={age_s}"
    return f"{name}={quote(value, safe='')}; Path=/{age}; HttpOnly; SameSite=Strict"


def seal_of(secret: bytes, seat: str) -> str:
    """What a form must carry to be taken from this browser."""
    return hmac.new(secret, f"seal {seat}".encode(), hashlib.sha256).hexdigest()


def passed(secret: bytes, token: str) -> str:
    """What a browser that gave the token is known by."""
    return hmac.new(secret, f"pass {token}".encode(), hashlib.sha256).hexdigest()


def reviewer_of(request: Request) -> str | None:
    """Whose reading is looked at: the name they gave."""
    return cleaned(unquote(request.cookies.get(NAME, "")))


def cleaned(name: str) -> str | None:
    """A name of 1 to 60 printed characters, or None."""
    plain = " ".join("".join(c if c.isprintable() else " " for c in name).split())
    return plain if 0 < len(plain) <= 60 else None
