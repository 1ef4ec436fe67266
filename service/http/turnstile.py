"""Lets in as many new plans at a time as are checked without much of a wait, and refuses the rest.

A refusal here costs a fraction of a millisecond. One behind the routes costs as much as a tenth of
an accepted request, so under a flood the refusals alone would fill the process, and whoever is let
in would wait behind them. Who comes next is a matter of `lines`.
"""

import asyncio

from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.callers import Callers
from service.http.lines import Lines
from service.http.problem_answers import problem_answer
from service.http.representations import add_common_headers
from service.http.watch import RequestCounts

_PATH = "/v1/plans"
_AGAIN = {"Retry-After": "2"}
_LARGEST_UNREAD_BYTES = 256 * 1024
"""A larger body of a refused request is not read; its connection is closed [byte]."""
_LEAVE = "leave_turnstile"


class Turnstile:
    """Stands before the application, and lets requests for plans in as the lines have it.

    A request has its place from when it is let in until it is answered or steps aside. It has none
    while it waits for its own body, so callers on slow lines keep nobody out.
    """

    def __init__(self, app: ASGIApp, counts: RequestCounts, lines: Lines | None = None) -> None:
        self._app = app
        self._counts = counts
        self._lines = lines or Lines()
        self._callers = Callers()
        self._refusals = {closes: _refusal(closes=closes) for closes in (False, True)}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it."""
        if scope["type"] != "http" or scope["path"] != _PATH or scope["method"] != "POST":
            await self._app(scope, receive, send)
            return
        caller = self._callers.name(scope)
        if await self._lines.enter(caller):
            visit = _Visit(self._lines, caller)
            try:
                scope.setdefault("state", {})[_LEAVE] = visit.leave
                await self._app(scope, visit.receiver(receive), send)
            finally:
                visit.leave()
                self._callers.learn(scope)
        else:
            self._counts.note("POST", 503, 0.0, "too_busy")
            await self._refusals[_is_large(scope)](scope, receive, send)


class _Visit:
    """One request that was let in."""

    def __init__(self, lines: Lines, caller: str) -> None:
        self._lines = lines
        self._caller = caller
        self._has_place = True
        self._is_done = False

    def receiver(self, receive: Receive) -> Receive:
        """Receives the body; where it is not there yet, the place is given back meanwhile."""
        loop = asyncio.get_running_loop()

        async def received() -> Message:
            leaving = loop.call_soon(self._give_back)
            try:
                message = await receive()
            finally:
                leaving.cancel()
            is_whole = message["type"] == "http.request" and not message.get("more_body", False)
            if is_whole and not self._has_place and not self._is_done:
                if not await self._lines.enter(self._caller, again=True):
                    raise ServiceProblem("too_busy", headers=_AGAIN)
                self._has_place = True
            return message

        return received

    def leave(self) -> None:
        """It is done with, or waits for something else."""
        self._is_done = True
        self._give_back()

    def _give_back(self) -> None:
        if self._has_place:
            self._has_place = False
            self._lines.leave()


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
    answer = problem_answer(ServiceProblem("too_busy", headers=_AGAIN))
    add_common_headers(answer.headers, answer.status_code, "POST")
    if closes:
        answer.headers["Connection"] = "close"
    return answer
