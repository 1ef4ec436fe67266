"""Lets in as many new plans at a time as are checked without much of a wait, and refuses the rest.

A refusal here costs a fraction of a millisecond. One behind the routes costs as much as a tenth of
an accepted request, so under a flood the refusals alone would fill the process, and whoever is let
in would wait behind them. Who comes next is a matter of `lines`.
"""

import asyncio
from collections.abc import Callable

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import QUEUE_FULL_AGAIN_SECONDS, ServiceProblem
from service.http.callers import Callers
from service.http.lines import Lines
from service.http.prepared import PreparedRefusal
from service.http.watch import RequestCounts

_PATH = "/v1/plans"
_AGAIN_SECONDS = 2
_ASKS_MORE = frozenset({b"idempotency-key", b"origin"})
_LEAVE = "leave_turnstile"


class Turnstile:
    """Stands before the application, and lets requests for plans in as the lines have it.

    A request has its place from when it is let in until it is answered or steps aside. It has none
    while it waits for its own body, so callers on slow lines keep nobody out.
    """

    def __init__(
        self,
        app: ASGIApp,
        counts: RequestCounts,
        lines: Lines | None = None,
        *,
        is_full: Callable[[str | None], bool] = lambda _tenant_id: False,
        needs_keys: bool = False,
    ) -> None:
        """`is_full` is whether the queue was full for a tenant a moment ago, known without a look.

        It is asked for None where no key tells whose request it is.
        """
        self._app = app
        self._lines = lines or Lines()
        self._callers = Callers()
        self._is_full = is_full
        self._needs_keys = needs_keys
        self._too_busy = PreparedRefusal("too_busy", again_seconds=_AGAIN_SECONDS, counts=counts)
        self._queue_full = PreparedRefusal(
            "queue_full", again_seconds=QUEUE_FULL_AGAIN_SECONDS, counts=counts
        )

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it."""
        if scope["type"] != "http" or scope["path"] != _PATH or scope["method"] != "POST":
            await self._app(scope, receive, send)
            return
        caller = self._callers.name(scope)
        if self._is_full(self._callers.tenant(caller)) and self._is_refused_unread(scope, caller):
            await self._queue_full(scope, send)
        elif await self._lines.enter(caller):
            visit = _Visit(self._lines, caller)
            try:
                scope.setdefault("state", {})[_LEAVE] = visit.leave
                await self._app(scope, visit.receiver(receive), send)
            finally:
                visit.leave()
                self._callers.learn(scope)
        else:
            await self._too_busy(scope, send)

    def _is_refused_unread(self, scope: Scope, caller: str) -> bool:
        """Whether the application would have nothing else to say to this one.

        A request with a key of its own may be a plan that is stored already, one without a key of
        ours has to hear of that, and another website needs the header that lets it read an answer.
        """
        if self._needs_keys and not self._callers.is_tenant(caller):
            return False
        return not any(name in _ASKS_MORE for name, _ in scope["headers"])


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
                    raise ServiceProblem("too_busy", headers={"Retry-After": str(_AGAIN_SECONDS)})
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
