"""Watches each request: its id, one line in the log, and what is counted of it."""

import json
import logging
import re
import secrets
import threading
import time
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.http.deprecation import deprecation_headers
from service.http.representations import SHOWN, Shown
from service.logs import PLAN_ID, REQUEST_ID

BUCKETS_SECONDS = (0.005, 0.025, 0.1, 0.5, 2.5, 10.0, 60.0)
_QUIET = frozenset({"/healthz", "/readyz", "/metrics"})
"""Addresses that machines read every few seconds; only their failures are logged."""
_METHODS = frozenset({"GET", "POST", "DELETE", "OPTIONS", "HEAD", "PUT", "PATCH"})
_GIVEN = re.compile(r"[A-Za-z0-9._-]{1,100}", re.ASCII)
_PLAN = re.compile(r"/(plan_[0-9a-z]{26})(?:/|$)", re.ASCII)

logger = logging.getLogger("service.requests")


class RequestCounts:
    """What this process has answered: requests, their times, and refusals by code."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._answers: Counter[tuple[str, int]] = Counter()
        self._refusals: Counter[str] = Counter()
        self._within = [0] * (len(BUCKETS_SECONDS) + 1)
        self._seconds = 0.0

    def note(self, method: str, status: int, seconds: float, code: str | None) -> None:
        """Count one answer; `code` is that of its problem.

        A method that nobody knows is counted as one, whatever it is called.
        """
        known = method if method in _METHODS else "other"
        with self._lock:
            self._answers[known, status] += 1
            self._within[bisect_left(BUCKETS_SECONDS, seconds)] += 1
            self._seconds += seconds
            if code is not None:
                self._refusals[code] += 1

    def lines(self) -> Iterator[str]:
        """The counts in the text format of Prometheus."""
        with self._lock:
            answers, refusals = dict(self._answers), dict(self._refusals)
            within, seconds = list(self._within), self._seconds
        yield "# TYPE haulwright_http_answers_total counter"
        for (method, status), count in sorted(answers.items()):
            yield f'haulwright_http_answers_total{{method="{method}",status="{status}"}} {count}'
        yield "# TYPE haulwright_http_refusals_total counter"
        for code, count in sorted(refusals.items()):
            yield f'haulwright_http_refusals_total{{code="{code}"}} {count}'
        yield "# TYPE haulwright_http_seconds histogram"
        total = 0
        for bound, count in zip((*map(str, BUCKETS_SECONDS), "+Inf"), within, strict=True):
            total += count
            yield f'haulwright_http_seconds_bucket{{le="{bound}"}} {total}'
        yield f"haulwright_http_seconds_sum {seconds:.6f}"
        yield f"haulwright_http_seconds_count {total}"


class Watched:
    """Between server and routes: gives each request its id and counts its answer."""

    def __init__(self, app: ASGIApp, counts: RequestCounts) -> None:
        self._app = app
        self._counts = counts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request_id = request_id_of(Headers(scope=scope))
        plan = _PLAN.search(scope["path"])
        REQUEST_ID.set(request_id)
        PLAN_ID.set(plan[1] if plan else None)
        begun = time.monotonic()
        status, code, made = 500, None, None

        async def watched(message: Message) -> None:
            nonlocal status, code, made
            if message["type"] == "http.response.start":
                status = message["status"]
                headers = MutableHeaders(scope=message)
                headers["X-Request-Id"] = request_id
                made = _PLAN.search(headers.get("location", ""))
                headers.update(deprecation_headers(scope))
            elif status >= 400:
                code = _code(message.get("body", b"")) or code
            await send(message)

        try:
            await self._app(scope, receive, watched)
        finally:
            if made is not None:
                # A request that made a plan is about that one, whatever its address names.
                PLAN_ID.set(made[1])
            self._note(scope, status, time.monotonic() - begun, code)

    def _note(self, scope: Scope, status: int, seconds: float, code: str | None) -> None:
        shown = scope.get(SHOWN) or Shown(scope["method"])
        status, code = shown.status or status, shown.code or code
        self._counts.note(shown.method, status, seconds, code)
        if status >= 500 or scope["path"] not in _QUIET:
            logger.info(
                "%s %s %s %d ms%s",
                shown.method,
                scope["path"].encode("ascii", "backslashreplace").decode(),
                status,
                round(seconds * 1000),
                f" {code}" if code else "",
            )


def request_id_of(asked: Headers) -> str:
    """The id that a request came with, if it is one; else a new one."""
    given = asked.get("x-request-id", "")
    return given if _GIVEN.fullmatch(given) else secrets.token_hex(8)


def _code(body: bytes) -> str | None:
    try:
        told = json.loads(body)
    except ValueError:
        return None
    code = told.get("code") if isinstance(told, dict) else None
    return code if isinstance(code, str) else None
