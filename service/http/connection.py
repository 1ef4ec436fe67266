"""One connection to a caller, with deadlines, and with problem answers below the application.

The server's own protocol gives callers all the time they like for headers, waits for ever for those
who do not read their answer, and refuses in plain text. Here each connection is looked at once a
second, and whoever keeps it waiting too long is closed.
"""

import asyncio
from dataclasses import dataclass
from typing import Any, ClassVar

import h11
from starlette.responses import Response
from starlette.types import Receive, Scope, Send
from uvicorn.config import Config
from uvicorn.protocols.http.h11_impl import H11Protocol, RequestResponseCycle
from uvicorn.server import ServerState

from service.errors import ServiceProblem
from service.http.cross_origin import ReadableRefusals
from service.http.problem_answers import problem_answer
from service.http.reading import Reading
from service.http.representations import add_common_headers

_LOOK_SECONDS = 1.0
_TOO_LARGE = 431
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


class _Connection(h11.Connection):
    """Remembers what kind of mistake a caller made."""

    mistake = 0

    def next_event(self) -> Any:  # noqa: ANN401 - as the library says it
        """The next event; a mistake is raised on."""
        try:
            return super().next_event()
        except h11.RemoteProtocolError as error:
            self.mistake = error.error_status_hint
            raise


class GuardedProtocol(H11Protocol):
    """The server's protocol with limits; subclasses name them."""

    limits: ClassVar[ConnectionLimits]
    origins: ClassVar[frozenset[str]] = frozenset()
    """Websites that may read that there are too many connections."""

    def __init__(
        self,
        config: Config,
        server_state: ServerState,
        app_state: dict[str, Any],
        _loop: asyncio.AbstractEventLoop | None = None,
    ) -> None:
        super().__init__(config, server_state, app_state, _loop)
        self._counted = _Connection(h11.SERVER, config.h11_max_incomplete_event_size or 65_536)
        self.conn = self._counted
        self._look_again: asyncio.TimerHandle | None = None
        self._seen_cycle: object = None
        self._since = self.loop.time()
        self._reading = Reading(self.limits.reading_seconds, now=self._since)

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection, or refuse its requests, or close it at once where too many do so."""
        super().connection_made(transport)
        beyond = len(self.connections) - self.limits.connections
        if beyond > self.limits.refused:
            transport.abort()
        elif beyond > 0:
            self.app = ReadableRefusals(_refuse, origins=self.origins)
        self._look()

    def connection_lost(self, exc: Exception | None) -> None:
        """Look no more."""
        if self._look_again is not None:
            self._look_again.cancel()
        super().connection_lost(exc)

    def send_400_response(self, msg: str) -> None:  # noqa: ARG002 - as the server calls it
        """Refuse what is no request, with a problem document."""
        if self._counted.mistake == _TOO_LARGE:
            self._refuse(ServiceProblem("headers_too_large"))
        else:
            self._refuse(ServiceProblem("malformed_request"))

    def _unsupported_upgrade_warning(self) -> None:
        """Say nothing: anybody can ask for another protocol, as often as they like."""

    def _refuse(self, problem: ServiceProblem) -> None:
        """Answer in place of the application, and close."""
        if self.conn.our_state is h11.IDLE:
            answer = refusal(problem, "GET")
            events = (
                h11.Response(status_code=answer.status_code, headers=answer.raw_headers),
                h11.Data(data=bytes(answer.body)),
                h11.EndOfMessage(),
            )
            for event in events:
                self.transport.write(self.conn.send(event) or b"")
        self.transport.close()

    def _look(self) -> None:
        """Close the connection where its other end keeps it waiting; else look again later."""
        now = self.loop.time()
        if self._reading.is_too_slow(self.transport.get_write_buffer_size(), now=now):
            self.transport.abort()
            return
        if self._sends_nothing(now) and not self.transport.is_closing():
            self._refuse(ServiceProblem("headers_too_slow"))
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


def refusal(problem: ServiceProblem, method: str) -> Response:
    """A problem answer with the headers of every answer, after which the connection is closed."""
    answer = problem_answer(problem)
    add_common_headers(answer.headers, answer.status_code, method)
    answer.headers["Connection"] = "close"
    return answer


async def _refuse(scope: Scope, receive: Receive, send: Send) -> None:
    """The application of a connection that is one too many."""
    problem = ServiceProblem("too_many_connections", headers=_AGAIN)
    await refusal(problem, scope["method"])(scope, receive, send)
