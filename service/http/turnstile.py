"""Lets in as many new plans at a time as are checked without much of a wait, and refuses the rest.

A refusal here costs a fraction of a millisecond. One behind the routes costs as much as a tenth of
an accepted request, so under a flood the refusals alone would fill the process, and whoever is let
in would wait behind them.
"""

import time
from collections.abc import Callable

from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.problem_answers import problem_answer
from service.http.representations import add_common_headers
from service.http.watch import RequestCounts

_PATH = "/v1/plans"
_AT_ONCE = 18
"""Plans that are let in at once: those at the desks and in the line before them [1]."""
_STANDING = 8
"""How many are let in while that many have been inside for a while without a break [1]."""
_STANDING_SECONDS = 1.0
"""How long so many are inside before it counts as a flood and no longer as a burst [s]."""
_LARGEST_UNREAD_BYTES = 256 * 1024
"""A larger body of a refused request is not read; its connection is closed [byte]."""
_LEAVE = "leave_turnstile"


class Turnstile:
    """Counts the requests for plans that are inside, and refuses those that are too many.

    A request counts from when it comes until it is answered or steps aside. It does not count
    while it waits for its own body, so callers on slow lines keep nobody out. A burst goes in
    whole; of a flood only so many are let in that nobody inside waits long.
    """

    def __init__(
        self, app: ASGIApp, counts: RequestCounts, *, now: Callable[[], float] = time.monotonic
    ) -> None:
        self._app = app
        self._counts = counts
        self._now = now
        self._inside = 0
        self._standing_since: float | None = None
        self._refusals = {closes: _refusal(closes=closes) for closes in (False, True)}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it."""
        if scope["type"] != "http" or scope["path"] != _PATH or scope["method"] != "POST":
            await self._app(scope, receive, send)
        elif self._inside >= self._most():
            self._counts.note("POST", 503, 0.0, "too_busy")
            await self._refusals[_is_large(scope)](scope, receive, send)
        else:
            await _Visit(self).run(scope, receive, send)

    async def pass_on(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request to the application."""
        await self._app(scope, receive, send)

    def count(self, change: int) -> None:
        """One more inside, or one less."""
        self._inside += change
        if self._inside < _STANDING:
            self._standing_since = None
        elif self._standing_since is None:
            self._standing_since = self._now()

    def _most(self) -> int:
        since = self._standing_since
        is_flood = since is not None and self._now() - since >= _STANDING_SECONDS
        return _STANDING if is_flood else _AT_ONCE


class _Visit:
    """One request while it is inside."""

    def __init__(self, turnstile: Turnstile) -> None:
        self._turnstile = turnstile
        self._counts = False
        self._has_left = False

    async def run(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer it."""

        async def received() -> Message:
            self._set(counts=False)
            message = await receive()
            self._set(counts=not self._has_left)
            return message

        scope.setdefault("state", {})[_LEAVE] = self.leave
        self._set(counts=True)
        try:
            await self._turnstile.pass_on(scope, received, send)
        finally:
            self.leave()

    def leave(self) -> None:
        """It is done with, or waits for something else."""
        self._has_left = True
        self._set(counts=False)

    def _set(self, *, counts: bool) -> None:
        if counts != self._counts:
            self._counts = counts
            self._turnstile.count(1 if counts else -1)


def step_aside(scope: Scope) -> None:
    """Say that a request waits for what the turnstile does not guard, if there is one."""
    leave = scope.get("state", {}).get(_LEAVE)
    if leave is not None:
        leave()


def _is_large(scope: Scope) -> bool:
    """Whether the body that comes is larger than is worth reading, or of unknown size."""
    length = Headers(scope=scope).get("content-length", "")
    return not (length.isdigit() and len(length) < 10 and int(length) <= _LARGEST_UNREAD_BYTES)


def _refusal(*, closes: bool) -> Response:
    """The answer to all who are refused; their connection stays open where the body is small."""
    answer = problem_answer(ServiceProblem("too_busy", headers={"Retry-After": "2"}))
    add_common_headers(answer.headers, answer.status_code, "POST")
    if closes:
        answer.headers["Connection"] = "close"
    return answer
