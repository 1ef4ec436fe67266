"""What every answer has in common: entity tags, conditions, compression, HEAD, and its headers."""

import gzip
import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.problem_answers import problem_answer

SMALLEST_COMPRESSED_BYTES = 1000
LARGE_BYTES = 64 * 1024
"""Answers from this size on get their tag and encoding in a thread, so that others are answered
meanwhile; smaller ones are done sooner than a thread begins [byte]."""
VARY = ("Accept", "Accept-Encoding", "Authorization", "Origin")
_STREAM = "text/event-stream"
_TAG = re.compile(r'(?:W/)?("[^"]*")|\*')
_FOR_PAGES = (
    "default-src 'self'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data:; worker-src 'self' blob:; frame-ancestors 'none'"
)
_FOR_DATA = "default-src 'none'; frame-ancestors 'none'"


SHOWN = "haulwright.shown"
"""Where a request has what goes out of its answer, for those within who count it."""


@dataclass(slots=True)
class Shown:
    """The method that was asked, and the status and code that take the place of the answer's."""

    method: str
    status: int | None = None
    code: str | None = None


class Representations:
    """Between server and application: what goes out as one piece gets its tag and encoding."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        asked = scope["method"]
        scope[SHOWN] = shown = Shown(asked)
        answer = _Answer(shown, Headers(scope=scope), send)
        inner = {**scope, "method": "GET"} if asked == "HEAD" else scope
        await self._app(inner, receive, answer.take)


class _Answer:
    """Holds an answer back until it is whole; a stream goes through as it comes."""

    def __init__(self, shown: Shown, asked: Headers, send: Send) -> None:
        self._shown = shown
        self._method = shown.method
        self._asked = asked
        self._send = send
        self._start: Message = {}
        self._parts: list[bytes] = []
        self._passes = False

    async def take(self, message: Message) -> None:
        """Take one message of the application."""
        if message["type"] == "http.response.start":
            self._start = message
            add_common_headers(MutableHeaders(scope=message), message["status"], self._method)
            content = Headers(raw=message["headers"]).get("content-type", "")
            self._passes = content.startswith(_STREAM)
            if self._passes:
                await self._send(message)
                if self._method == "HEAD":
                    # The server tells the stream that nobody listens any more.
                    await self._send({"type": "http.response.body", "body": b""})
        elif self._passes:
            if self._method != "HEAD":
                await self._send(message)
        else:
            self._parts.append(message.get("body", b""))
            if not message.get("more_body", False):
                await self._whole(b"".join(self._parts))

    async def _whole(self, body: bytes) -> None:
        if len(body) < LARGE_BYTES:
            body = self._encoded(body)
        else:
            body = await run_in_threadpool(self._encoded, body)
        await self._send(self._start)
        shown = b"" if self._method == "HEAD" else body
        await self._send({"type": "http.response.body", "body": shown})

    def _encoded(self, body: bytes) -> bytes:
        """What goes out of a body, packed where the caller takes that."""
        headers = MutableHeaders(scope=self._start)
        if self._start["status"] == 200 and self._method in {"GET", "HEAD"}:
            return self._conditional(headers, body)
        if _takes_gzip(self._asked) and len(body) >= SMALLEST_COMPRESSED_BYTES:
            return _compressed(headers, body)
        return body

    def _conditional(self, headers: MutableHeaders, body: bytes) -> bytes:
        """Tag the body; where the caller has it already, answer 304 and send nothing.

        If-Match comes first (RFC 9110, section 13.2.2): 412 where it names another body.
        """
        plain, packed = tags_of(body)
        if not matches(self._asked.getlist("if-match"), body):
            return self._changed(headers, plain)
        squeeze = _takes_gzip(self._asked) and len(body) >= SMALLEST_COMPRESSED_BYTES
        headers["ETag"] = packed if squeeze else plain
        if _knows(self._asked.getlist("if-none-match"), headers["ETag"]):
            self._start["status"] = self._shown.status = 304
            for name in ("content-length", "content-type", "content-disposition"):
                del headers[name]
            return b""
        return _compressed(headers, body) if squeeze else body

    def _changed(self, headers: MutableHeaders, tag: str) -> bytes:
        """Refuse what is not as the caller read it, with the tag that it has now."""
        problem = problem_answer(ServiceProblem("changed_since"))
        self._start["status"] = self._shown.status = problem.status_code
        self._shown.code = "changed_since"
        for name in ("content-disposition", "cache-control", "content-security-policy"):
            del headers[name]
        headers.update(problem.headers)
        headers["ETag"] = tag
        add_common_headers(headers, problem.status_code, self._method)
        return bytes(problem.body)


def tags_of(body: bytes) -> tuple[str, str]:
    """The strong tags of a body as it is, and packed."""
    tag = hashlib.sha256(body).hexdigest()[:32]
    return f'"{tag}"', f'"{tag}-gz"'


def matches(if_match: Iterable[str], body: bytes) -> bool:
    """Whether If-Match names the body, strongly compared, or was not sent (RFC 9110, 13.1.1)."""
    given = ", ".join(if_match)
    if not given.strip():
        return True
    tags = {match[0] for match in _TAG.finditer(given)}
    return bool(tags & {"*", *tags_of(body)})


def is_known(if_none_match: Iterable[str], body: bytes) -> bool:
    """Whether If-None-Match names the body, as it is or packed."""
    return any(_knows(if_none_match, tag) for tag in tags_of(body))


def add_common_headers(headers: MutableHeaders, status: int, method: str) -> None:
    """Headers of every answer: what it varies by, how long it holds, what a browser may do."""
    given = [name.strip() for name in headers.get("vary", "").split(",") if name.strip()]
    headers["Vary"] = ", ".join(dict.fromkeys((*given, *VARY)))
    reusable = status == 200 and method in {"GET", "HEAD"}
    headers.setdefault("Cache-Control", "private, no-cache" if reusable else "no-store")
    headers.setdefault("X-Content-Type-Options", "nosniff")
    headers.setdefault("Referrer-Policy", "no-referrer")
    is_page = headers.get("content-type", "").startswith("text/html")
    headers.setdefault("Content-Security-Policy", _FOR_PAGES if is_page else _FOR_DATA)


def _knows(given: Iterable[str], tag: str) -> bool:
    """Whether If-None-Match names the tag, weakly compared (RFC 9110, section 13.1.2)."""
    tags = [match[0].removeprefix("W/") for match in _TAG.finditer(", ".join(given))]
    return tag in tags or "*" in tags


def _takes_gzip(asked: Headers) -> bool:
    """Whether gzip is taken; what is said of it goes before what is said of any other coding."""
    weights = {}
    for part in ", ".join(asked.getlist("accept-encoding")).split(","):
        coding, _, weight = part.strip().lower().partition(";")
        weights[coding.strip()] = weight
    for coding in ("gzip", "x-gzip", "*"):
        if coding in weights:
            return not re.fullmatch(r"\s*q\s*=\s*0(\.0*)?\s*", weights[coding])
    return False


def _compressed(headers: MutableHeaders, body: bytes) -> bytes:
    squeezed = gzip.compress(body, compresslevel=5, mtime=0)
    headers["Content-Encoding"] = "gzip"
    headers["Content-Length"] = str(len(squeezed))
    return squeezed
