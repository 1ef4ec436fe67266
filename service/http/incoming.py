"""What comes in on one connection, parsed in bounded pieces.

Parsing costs by the line and by the chunk, not by the byte. So a head and a trailer may have only
so many lines, chunks may not be tiny throughout, and each turn parses only so much before the
process answers others.
"""

import re
from typing import Any

import h11

from service.errors import ServiceProblem

MOST_HEADERS = 100
"""Headers of one request, or trailers behind its body [1]."""
FREE_CHUNKS = 1_000
"""Chunks of one body that may be as small as they like [1]."""
SMALLEST_MEAN_CHUNK_BYTES = 512
"""What the chunks beyond those hold on average, at least [byte]."""
EVENTS_PER_TURN = 100
"""Chunks and the like that are parsed before others have their turn [1]."""
MOST_WAITING_BYTES = 1024 * 1024
"""What may have come and wait to be parsed; a connection with more is closed [byte]."""
MOST_EMPTY_LINES = 8
"""Empty lines before a request that are ignored (RFC 9112, section 2.2) [1]."""

_MOST_LINES = MOST_HEADERS + 2
"""With the first line and the empty one at the end [1]."""
_PIECE_BYTES = 32 * 1024
_TOO_LARGE = 431
_BLANK_LINE = re.compile(rb"\n\r?\n")
_EMPTY_LINE = re.compile(rb"\r?\n")
_LAST_CHUNK = re.compile(rb"(?:\r?\n)?0+(?![0-9a-fA-F])[^\n]*\n")


class Incoming(h11.Connection):
    """The server's end of a connection; remembers why it refused what came."""

    def __init__(self, most_incomplete_bytes: int) -> None:
        super().__init__(h11.SERVER, most_incomplete_bytes)
        self.problem: ServiceProblem | None = None
        self.is_cut_short = False
        """Whether the last turn ended before everything was parsed."""
        self._waiting = bytearray()
        self._left_in_turn = EVENTS_PER_TURN
        self._begin_message()

    def _begin_message(self) -> None:
        self._is_chunked = self._is_between_chunks = self._is_in_trailer = False
        self._chunks = self._body_bytes = self._empty_lines = 0

    def begin_turn(self) -> None:
        """Others had their turn; parse on."""
        self._left_in_turn = EVENTS_PER_TURN
        self.is_cut_short = False

    def receive_data(self, data: bytes) -> None:
        """Take what came; it is parsed later, piece by piece."""
        self._waiting += data

    def is_flooded(self) -> bool:
        """Whether more waits than a caller who keeps to the protocol has ever sent ahead."""
        return len(self._waiting) > MOST_WAITING_BYTES

    def next_event(self) -> Any:  # noqa: ANN401 - as the library says it
        """The next event; what is refused leaves its problem here."""
        if not self._left_in_turn:
            self.is_cut_short = True
            return h11.NEED_DATA
        try:
            event = self._next_of_pieces()
        except h11.RemoteProtocolError as error:
            too_large = error.error_status_hint == _TOO_LARGE
            code = "headers_too_large" if too_large else "malformed_request"
            self.problem = self.problem or ServiceProblem(code)
            raise
        self._left_in_turn -= 1
        return event

    def _next_of_pieces(self) -> Any:  # noqa: ANN401 - as the library says it
        """The next event, with as many pieces of what waits as it takes."""
        while True:
            is_cut = self._skip_empty_lines()
            self._check_lines()
            event = h11.NEED_DATA if is_cut else super().next_event()
            if event is not h11.NEED_DATA or not self._waiting:
                self._note(event)
                return event
            super().receive_data(bytes(self._waiting[:_PIECE_BYTES]))
            del self._waiting[:_PIECE_BYTES]

    def _skip_empty_lines(self) -> bool:
        """Skip empty lines before a request; whether another one has come only half."""
        while self.their_state is h11.IDLE and self._empty_lines < MOST_EMPTY_LINES:
            text = self.trailing_data[0]
            line = _EMPTY_LINE.match(text)
            if line is None:
                return text == b"\r"
            self._receive_buffer.maybe_extract_at_most(line.end())
            self._empty_lines += 1
        return False

    def _check_lines(self) -> None:
        """Refuse a head or a trailer of too many lines before its lines are parsed."""
        is_head = self.their_state is h11.IDLE
        if not (is_head or self._is_between_chunks or self._is_in_trailer):
            return
        text, begin = self.trailing_data[0], 0
        if not (is_head or self._is_in_trailer):
            last = _LAST_CHUNK.match(text)
            if last is None:
                return
            self._is_in_trailer, begin = True, last.end()
        if text.count(b"\n", begin) > _MOST_LINES:
            end = _BLANK_LINE.search(text, begin)
            if text.count(b"\n", begin, end.end() if end else len(text)) > _MOST_LINES:
                self._refuse(ServiceProblem("headers_too_large"))

    def _note(self, event: object) -> None:
        """Count the chunks of a body, and refuse one that has far too many."""
        if isinstance(event, h11.Request):
            self._begin_message()
            self._is_chunked = any(name == b"transfer-encoding" for name, _ in event.headers)
            self._is_between_chunks = self._is_chunked
        elif isinstance(event, h11.Data) and self._is_chunked:
            self._is_between_chunks = event.chunk_end
            self._chunks += event.chunk_start
            self._body_bytes += len(event.data)
            beyond = self._chunks - FREE_CHUNKS
            if beyond * SMALLEST_MEAN_CHUNK_BYTES > self._body_bytes:
                detail = "The body comes in too many small chunks. Send chunks of 1 KiB or more."
                self._refuse(ServiceProblem("malformed_request", detail))
        elif isinstance(event, h11.EndOfMessage):
            self._begin_message()

    def _refuse(self, problem: ServiceProblem) -> None:
        self.problem = problem
        raise h11.RemoteProtocolError(problem.code)
