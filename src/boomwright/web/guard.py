"""Who may talk to the page: this machine's own browser, with this run's secret, and nobody else.

A page on loopback is reachable from every web site the owner visits, so each request and
each socket is held against its Host, its Origin and a secret that only the printed address
carries. Nothing here ever looks at the disk.
"""

from __future__ import annotations

import hashlib
import hmac
from collections.abc import Awaitable, Callable
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from boomwright.base.records import dataclass
from boomwright.web.password import PasswordCheck, asking_address

#: names a browser on this machine may use for it
LOOPBACK_HOSTS = frozenset({"127.0.0.1", "localhost", "[::1]"})
#: the paths that take a body: a measured sweep, a price list
UPLOAD_PATHS = frozenset({"/measured.json", "/prices.json"})
#: longest body taken there [bytes]
UPLOAD_LIMIT = 4 * 1024 * 1024
#: longest time one may take to come [s]
UPLOAD_TIME = 60.0

_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        # Pictures are turned into PNG through a blob of the page's own making.
        "img-src 'self' blob:",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)

#: sent with every answer
HEADERS = {
    "content-security-policy": _POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=(), usb=(), serial=()",
    "cache-control": "no-store",
}

_READING = frozenset({"GET", "HEAD"})

Refuse = Callable[[Scope, Receive, Send, int, str, str], Awaitable[None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a request is turned away."""

    status: int  #: HTTP status
    message: str  #: what is wrong
    remedy: str  #: what to do instead


def cookie_name(key: str) -> str:
    """Name the cookie, so that two pages open at once do not take each other's."""
    return f"boomwright-{hashlib.sha256(key.encode()).hexdigest()[:8]}"


def _host_name(host: str) -> str:
    """Drop the port: the socket already decided it; a foreign name is what must not pass."""
    name, colon, port = host.rpartition(":")
    return name if colon and port.isdigit() else host


def _body_refusal(headers: Headers) -> Refusal | None:
    if headers.get("content-length", "0") == "0" and "transfer-encoding" not in headers:
        return None
    return Refusal(
        status=413,
        message="no request of this page carries a body",
        remedy="edit the plan on the page, or the file itself",
    )


def _upload_refusal(headers: Headers) -> Refusal | None:
    """A body must say its length, and the page's own script must have sent it."""
    length = headers.get("content-length", "")
    if "transfer-encoding" in headers or not length.isdigit():
        return Refusal(
            status=411,
            message="the file's length is not stated",
            remedy="send it through the page's own form",
        )
    if int(length) > UPLOAD_LIMIT:
        return Refusal(
            status=413,
            message="the file is larger than 4 MB",
            remedy="thin the sweep out, to some hundred points",
        )
    if "origin" not in headers:
        return Refusal(
            status=403,
            message="the file did not come from this page",
            remedy="send it through the page's own form",
        )
    return None


def _same(given: str, wanted: str) -> bool:
    return hmac.compare_digest(given.encode(errors="replace"), wanted.encode())


class Guard:
    """ASGI layer around the whole page.

    Args:
        app: the page
        key: the run's secret
        hosts: host names taken
        refuse: answers a refused request: scope, receive, send, status, message, remedy
        password: lets others in by a password, when the page is served beyond this machine
    """

    def __init__(
        self,
        app: ASGIApp,
        *,
        key: str,
        hosts: frozenset[str],
        refuse: Refuse,
        password: PasswordCheck,
    ) -> None:
        self._app = app
        self._password = password
        self._key = key
        self._hosts = hosts
        self._refuse = refuse
        self._cookie = cookie_name(key)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it here."""
        if scope["type"] not in {"http", "websocket"}:
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope, headers)
        send = _with_headers(send)
        if scope["type"] == "websocket":
            if refusal is None:
                await self._app(scope, receive, send)
            else:
                await receive()
                await send({"type": "websocket.close", "code": 1008, "reason": refusal.message})
            return
        entering = self._opening(scope) is not None or self._knocks(scope, headers)
        if refusal is None and entering:
            await self._open(send)
        elif refusal is None:
            await self._app(scope, receive, send)
        else:
            await self._refuse(
                scope, receive, send, refusal.status, refusal.message, refusal.remedy
            )

    def _refusal(self, scope: Scope, headers: Headers) -> Refusal | None:
        host = headers.get("host", "")
        if _host_name(host) not in self._hosts:
            return Refusal(
                status=421,
                message="this page answers on this machine only",
                remedy="open the address as printed by the command",
            )
        upload = scope["type"] == "http" and scope["path"] in UPLOAD_PATHS
        if scope["type"] == "http" and scope["method"] not in ({"POST"} if upload else _READING):
            return Refusal(
                status=405,
                message=f"{scope['method']} is not used here",
                remedy="edits go through the page itself",
            )
        refusal = _upload_refusal(headers) if upload else _body_refusal(headers)
        if refusal is not None:
            return refusal
        if not self._own_origin(scope, headers, host):
            return Refusal(
                status=403,
                message="the request came from another site",
                remedy="open the address as printed by the command",
            )
        given = self._opening(scope) or self._from_cookie(headers)
        if not _same(given or "", self._key):
            if self._password.there and scope["type"] == "http":
                return self._knock(scope, headers)
            return Refusal(
                status=403,
                message="the key of this run is missing or wrong",
                remedy="open the address as printed by the command, with its key",
            )
        return None

    def _knocks(self, scope: Scope, headers: Headers) -> bool:
        """Whether a password, already found right, stands in for the key."""
        return (
            self._password.there
            and scope["type"] == "http"
            and not _same(self._from_cookie(headers) or "", self._key)
        )

    def _knock(self, scope: Scope, headers: Headers) -> Refusal | None:
        (client, _), (server, _) = (scope.get(end) or ("", 0) for end in ("client", "server"))
        address = asking_address(client, server=server)
        if self._password.opens(headers.get("authorization", ""), address=address):
            return None
        if self._password.locked(address):
            return Refusal(
                status=429,
                message="too many wrong passwords from your address",
                remedy="wait some minutes, then try again; each time takes longer",
            )
        return Refusal(
            status=401,
            message="a password is needed",
            remedy="ask whoever serves this page; any user name will do",
        )

    @staticmethod
    def _own_origin(scope: Scope, headers: Headers, host: str) -> bool:
        origin = headers.get("origin")
        if scope["type"] == "websocket" and origin is None:
            return False
        # A link from elsewhere may open the page itself; nothing else may be fetched from outside.
        site = headers.get("sec-fetch-site", "none")
        if site not in {"same-origin", "none"} and headers.get("sec-fetch-dest") != "document":
            return False
        return origin is None or origin == f"http://{host}"

    def _from_cookie(self, headers: Headers) -> str | None:
        try:
            morsel = SimpleCookie(headers.get("cookie", "")).get(self._cookie)
        except CookieError:
            return None
        return morsel.value if morsel else None

    @staticmethod
    def _opening(scope: Scope) -> str | None:
        if scope["type"] != "http":
            return None
        found = parse_qs(scope["query_string"].decode("latin-1")).get("key")
        return found[0] if found else None

    async def _open(self, send: Send) -> None:
        """Move the key from the address into a cookie, so that it stays out of the history."""
        cookie = f"{self._cookie}={self._key}; Path=/; HttpOnly; SameSite=Strict"
        await send(
            {
                "type": "http.response.start",
                "status": 303,
                "headers": [
                    (b"location", b"/"),
                    (b"set-cookie", cookie.encode()),
                    (b"content-length", b"0"),
                ],
            }
        )
        await send({"type": "http.response.body", "body": b""})


def _with_headers(send: Send) -> Send:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            message.setdefault("headers", [])
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    return wrapped
