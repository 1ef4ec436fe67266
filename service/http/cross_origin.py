"""Which methods an address takes, and which other websites may call it from a browser (CORS)."""

from collections.abc import Callable

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_HEADERS = "Accept, Authorization, Content-Encoding, Content-Type, Idempotency-Key, If-Match, "
_TAKEN = f"{_HEADERS}If-None-Match, Last-Event-ID, Prefer, X-Request-Id"
_FOR_WORK = "ETag, Location, Preference-Applied, Retry-After, Deprecation, Sunset, X-Request-Id"
_SHOWN = f"Content-Disposition, Link, {_FOR_WORK}"
_PREFLIGHT_SECONDS = 600


class CrossOrigin:
    """Answers OPTIONS, and lets the named origins read answers; others get no such header."""

    def __init__(
        self, app: ASGIApp, *, origins: frozenset[str], methods_at: Callable[[Scope], set[str]]
    ) -> None:
        self._app = app
        self._origins = origins
        self._methods_at = methods_at

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        allowed = allowed_origin(scope, self._origins)
        readable = send if allowed is None else _readable_by(allowed, send)
        methods = self._methods_at(scope) if scope["method"] == "OPTIONS" else set()
        if methods:
            answer = _options(sorted(methods), preflight=allowed is not None)
            await answer(scope, receive, readable)
        else:
            await self._app(scope, receive, readable)


class ReadableRefusals:
    """Before all that may refuse a request: lets the named origins read refusals, too.

    A browser shows its page an answer without that header as a network error.
    """

    def __init__(self, app: ASGIApp, *, origins: frozenset[str]) -> None:
        self._app = app
        self._origins = origins

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or have it refused."""
        allowed = allowed_origin(scope, self._origins) if scope["type"] == "http" else None
        await self._app(scope, receive, send if allowed is None else _readable_by(allowed, send))


def allowed_origin(scope: Scope, origins: frozenset[str]) -> str | None:
    """The website that a request comes from, None where it is none of these."""
    origin = Headers(scope=scope).get("origin") if origins else None
    return origin if origin in origins else None


def _readable_by(origin: str, send: Send) -> Send:
    async def with_origin(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            headers["Access-Control-Allow-Origin"] = origin
            headers["Access-Control-Expose-Headers"] = _SHOWN
        await send(message)

    return with_origin


def _options(methods: list[str], *, preflight: bool) -> Response:
    headers = {"Allow": ", ".join(methods)}
    if preflight:
        headers |= {
            "Access-Control-Allow-Methods": ", ".join(methods),
            "Access-Control-Allow-Headers": _TAKEN,
            "Access-Control-Max-Age": str(_PREFLIGHT_SECONDS),
        }
    return Response(status_code=204, headers=headers)
