"""One connection to a caller, with deadlines, and with problem answers below the application.

The server's own protocol gives callers all the time they like for headers, waits for ever for those
who do not read their answer, and refuses in plain text. Here each connection is looked at once a
second, and whoever keeps it waiting too long is closed.
"""

import asyncio
from dataclasses import dataclass
from typing import Any, ClassVar

import h11
from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import Receive, Scope, Send
from uvicorn.config import Config
from uvicorn.protocols.http.flow_control import FlowControl
from uvicorn.protocols.http.h11_impl import H11Protocol, RequestResponseCycle
from uvicorn.server import ServerState

from service.errors import ServiceProblem
from service.http.cross_origin import ReadableRefusals
from service.http.incoming import Incoming
from service.http.problem_answers import problem_answer
from service.http.reading import Reading
from service.http.representations import add_common_headers
from service.http.watch import RequestCounts, request_id_of

_LOOK_SECONDS = 1.0
_REST_SECONDS = 5.0
"""How long the rest of what was refused may still come, before its connection is closed [s]."""
_AGAIN = {"Retry-After": "5"}


@dataclass(frozen=True, slots=True)
class ConnectionLimits:
    """How many connections are answered, how many more are refused, and the deadlines [s].

    `header_seconds` is the time for the first line and the headers of a request, `reading_seconds`
    that in which too little was taken of an answer.
    """

    connections: int
    refused: int
    header_seconds: float
    reading_seconds: float


class _Flow(FlowControl):
    """Reads nothing more while a part of what was read still waits to be parsed."""

    _is_held = False
    _is_wanted = True

    def pause_reading(self) -> None:
        """The application or the protocol has enough for now."""
        self._is_wanted = False
        super().pause_reading()

    def resume_reading(self) -> None:
        """They want more, which may have to wait."""
        self._is_wanted = True
        if not self._is_held:
            super().resume_reading()

    def hold(self, *, is_held: bool) -> None:
        """Stop to read, or go on where somebody wants more."""
        self._is_held = is_held
        if is_held:
            super().pause_reading()
        elif self._is_wanted:
            super().resume_reading()


class GuardedProtocol(H11Protocol):
    """The server's protocol with limits; subclasses name them."""

    limits: ClassVar[ConnectionLimits]
    origins: ClassVar[frozenset[str]] = frozenset()
    """Websites that may read that there are too many connections."""
    counts: ClassVar[RequestCounts] = RequestCounts()
    """Where refusals are counted."""

    def __init__(
        self,
        config: Config,
        server_state: ServerState,
        app_state: dict[str, Any],
        _loop: asyncio.AbstractEventLoop | None = None,
    ) -> None:
        super().__init__(config, server_state, app_state, _loop)
        self._incoming = Incoming(config.h11_max_incomplete_event_size or 65_536)
        self.conn = self._incoming
        self._held: _Flow | None = None
        self._going_on: asyncio.Handle | None = None
        self._is_refused = False
        self._look_again: asyncio.TimerHandle | None = None
        self._seen_cycle: object = None
        self._since = self.loop.time()
        self._reading = Reading(self.limits.reading_seconds, now=self._since)

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection, or refuse its requests, or close it at once where too many do so."""
        super().connection_made(transport)
        self.flow = self._held = _Flow(transport)
        beyond = len(self.connections) - self.limits.connections
        if beyond > self.limits.refused:
            transport.abort()
        elif beyond > 0:
            self.app = ReadableRefusals(_OneTooMany(self.counts), origins=self.origins)
        self._look()

    def connection_lost(self, exc: Exception | None) -> None:
        """Look no more."""
        for handle in (self._look_again, self._going_on):
            if handle is not None:
                handle.cancel()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take what came; what comes after a refusal is not looked at."""
        if self._is_refused:
            return
        super().data_received(data)
        if self._incoming.is_flooded():
            self.transport.abort()

    def handle_events(self) -> None:
        """Parse a part of what is there, and the rest of it after others had their turn."""
        self._incoming.begin_turn()
        super().handle_events()
        goes_on = self._incoming.is_cut_short and not self.transport.is_closing()
        if goes_on and self._going_on is None:
            self._going_on = self.loop.call_soon(self._go_on)
        if self._held is not None:
            self._held.hold(is_held=goes_on)

    def _go_on(self) -> None:
        self._going_on = None
        if not (self._is_refused or self.transport.is_closing()):
            self.handle_events()

    def send_400_response(self, msg: str) -> None:  # noqa: ARG002 - as the server calls it
        """Refuse what is no request, with a problem document.

        What still comes is thrown away for a while. A connection that is closed before all was read
        may lose the answer on its way.
        """
        self._answer(self._incoming.problem or ServiceProblem("malformed_request"))
        self._is_refused = True
        cycle: RequestResponseCycle | None = self.cycle
        if cycle is not None and not cycle.response_complete:
            cycle.disconnected = True
            cycle.message_event.set()
        self.transport.resume_reading()
        if self.transport.can_write_eof():
            self.transport.write_eof()
        self.loop.call_later(_REST_SECONDS, self.transport.close)

    def _unsupported_upgrade_warning(self) -> None:
        """Say nothing: anybody can ask for another protocol, as often as they like."""

    def _answer(self, problem: ServiceProblem) -> None:
        """Answer in place of the application, where it did not begin to."""
        if self.conn.our_state not in {h11.IDLE, h11.SEND_RESPONSE}:
            return
        is_begun = self.conn.our_state is h11.SEND_RESPONSE
        scope: Scope = {**self.cycle.scope} if is_begun else {"method": "", "headers": []}
        # A request whose head was read is counted by who answers it.
        answer = refusal(problem, scope, None if is_begun else self.counts)
        events = (
            h11.Response(status_code=answer.status_code, headers=answer.raw_headers),
            h11.Data(data=b"" if scope["method"] == "HEAD" else bytes(answer.body)),
            h11.EndOfMessage(),
        )
        for event in events:
            self.transport.write(self.conn.send(event) or b"")

    def _look(self) -> None:
        """Close the connection where its other end keeps it waiting; else look again later."""
        now = self.loop.time()
        if self._reading.is_too_slow(self.transport.get_write_buffer_size(), now=now):
            self.transport.abort()
            return
        if self._sends_nothing(now) and not self.transport.is_closing():
            self._answer(ServiceProblem("headers_too_slow"))
            self.transport.close()
        self._look_again = self.loop.call_later(_LOOK_SECONDS, self._look)

    def _sends_nothing(self, now: float) -> bool:
        """Whether the next request has been awaited too long, or the rest of one that is answered.

        After an answer the caller may be idle for as long as the server lets it, besides.
        """
        cycle: RequestResponseCycle | None = self.cycle
        if cycle is not self._seen_cycle or not (cycle is None or cycle.response_complete):
            self._seen_cycle = cycle
            self._since = now
        idle_seconds = 0 if cycle is None else self.timeout_keep_alive
        return now - self._since > self.limits.header_seconds + idle_seconds


def refusal(problem: ServiceProblem, scope: Scope, counts: RequestCounts | None = None) -> Response:
    """A problem answer with the headers of every answer, after which the connection is closed.

    It is counted where `counts` are given.
    """
    method = scope["method"]
    answer = problem_answer(problem)
    add_common_headers(answer.headers, answer.status_code, method)
    answer.headers["Connection"] = "close"
    answer.headers["X-Request-Id"] = request_id_of(Headers(scope=scope))
    if counts is not None:
        counts.note(method, answer.status_code, 0.0, problem.code)
    return answer


class _OneTooMany:
    """The application of a connection that is one too many."""

    def __init__(self, counts: RequestCounts) -> None:
        self._counts = counts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse one request."""
        problem = ServiceProblem("too_many_connections", headers=_AGAIN)
        await refusal(problem, scope, self._counts)(scope, receive, send)
