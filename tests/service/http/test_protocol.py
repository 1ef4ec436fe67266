"""The protocol on a real socket, before a small application: refusals, turns and what stays open.

A cheap server of one connection after another, without the service behind it.
"""

import asyncio
import contextlib
import json
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
import uvicorn
from starlette.types import Receive, Scope, Send

from service.http.connection import ConnectionLimits, GuardedProtocol
from service.http.incoming import EVENTS_PER_TURN
from tests.service.processes import until

HEAD = b"POST %s HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\n\r\n"
UNREAD, READ, STREAMS = b"/unread", b"/read", b"/streams"
TINY = b"1\r\nx\r\n"


@dataclass
class Small:
    """An application that answers unread or with the size of the body, or streams meanwhile."""

    port: int = 0
    heard: list[str] = field(default_factory=list)
    parsed: list[int] = field(default_factory=list)
    """The bytes of each message with a part of a body."""

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        size = 0
        if scope["path"] == "/streams":
            await send({"type": "http.response.start", "status": 200, "headers": []})
        while scope["path"] != "/unread":
            message = await receive()
            self.heard.append(message["type"])
            if message["type"] == "http.disconnect":
                return
            self.parsed.append(len(message["body"]))
            size += len(message["body"])
            if not message["more_body"]:
                break
        body = str(size).encode()
        headers = [(b"content-length", str(len(body)).encode())]
        if scope["path"] != "/streams":
            await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": body})


@pytest.fixture(scope="module")
def served() -> Iterator[Small]:
    """The application behind the protocol, in a thread of its own."""
    small = Small()

    class Protocol(GuardedProtocol):
        """The protocol with usual limits."""

        limits = ConnectionLimits(connections=20, refused=5, header_seconds=20, reading_seconds=20)

    config = uvicorn.Config(small, lifespan="off", http=Protocol, ws="none", log_config=None)
    server = uvicorn.Server(config)
    with socket.create_server(("127.0.0.1", 0)) as listener:
        small.port = listener.getsockname()[1]
        run = threading.Thread(target=lambda: asyncio.run(server.serve([listener])))
        run.start()
        yield small
        server.should_exit = True
        run.join(20)


@contextlib.contextmanager
def connected(small: Small) -> Iterator[socket.socket]:
    """A connection, before which nothing was heard."""
    small.heard.clear()
    small.parsed.clear()
    with socket.create_connection(("127.0.0.1", small.port), timeout=10) as caller:
        yield caller


def rest(caller: socket.socket) -> bytes:
    """Everything until the server closes."""
    parts = []
    while part := caller.recv(65_536):
        parts.append(part)
    return b"".join(parts)


def answered(caller: socket.socket, end: bytes) -> bytes:
    """What comes until it ends as it should."""
    parts = b""
    while not parts.endswith(end):
        part = caller.recv(65_536)
        assert part, parts
        parts += part
    return parts


def told(answer: bytes) -> tuple[int, str]:
    """Status and code of a problem document."""
    head, _, body = answer.partition(b"\r\n\r\n")
    assert b"content-type: application/problem+json" in head.lower()
    assert b"connection: close" in head.lower()
    return int(head.split()[1]), json.loads(body)["code"]


@pytest.mark.parametrize(
    ("text", "status", "code"),
    [
        (TINY * 2_000, 400, "malformed_request"),
        (b"5\r\nhello\r\nnonsense\r\n", 400, "malformed_request"),
        (b"5\r\nhello\r\n0\r\n" + b"a: b\r\n" * 300 + b"\r\n", 431, "headers_too_large"),
    ],
    ids=["tiny chunks", "no chunk", "trailer"],
)
def test_a_body_in_bad_chunks_is_refused_with_a_problem_document(served, text, status, code):
    """The application hears that nobody is there any more, and the connection is closed."""
    with connected(served) as caller:
        caller.sendall(HEAD % READ)
        caller.sendall(text)
        assert told(rest(caller)) == (status, code)
    until(lambda: served.heard[-1:] == ["http.disconnect"])


def test_a_refusal_is_read_though_much_more_was_sent(served):
    """What comes after it is thrown away unparsed, so the connection is not reset."""
    with connected(served) as caller:
        caller.sendall(HEAD % READ + TINY * 300_000)
        assert told(rest(caller)) == (400, "malformed_request")
    assert sum(served.parsed) <= 1_001


def test_tiny_chunks_behind_an_answer_close_the_connection(served):
    """The answer is out, so there is nothing more to say; the chunks are not parsed to the end."""
    with connected(served) as caller:
        caller.sendall(HEAD % UNREAD)
        assert answered(caller, b"\r\n\r\n0").startswith(b"HTTP/1.1 200")
        caller.sendall(TINY * 100_000)
        assert rest(caller) == b""


def test_tiny_chunks_beside_a_streamed_answer_end_it(served):
    """An answer that has begun cannot become a refusal; it ends early."""
    with connected(served) as caller:
        caller.sendall(HEAD % STREAMS)
        assert caller.recv(65_536).startswith(b"HTTP/1.1 200")
        caller.sendall(TINY * 100_000)
        rest(caller)
    until(lambda: served.heard[-1:] == ["http.disconnect"])


def test_a_head_of_very_many_lines_in_one_piece_is_refused(served):
    """Its size alone is below the limit."""
    with connected(served) as caller:
        caller.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\n" + b"a:\r\n" * 5_000 + b"\r\n")
        assert told(rest(caller)) == (431, "headers_too_large")


def test_a_read_of_many_chunks_is_parsed_in_turns(served):
    """The application hears of the first ones before the last are parsed."""
    with connected(served) as caller:
        caller.sendall(HEAD % READ + TINY * 900 + b"0\r\n\r\n")
        answered(caller, b"\r\n\r\n900")
    assert max(served.parsed) <= EVENTS_PER_TURN
    assert len(served.parsed) >= 900 // EVENTS_PER_TURN


@pytest.mark.parametrize("size", [1_000, 1024, 16_384])
@pytest.mark.parametrize("path", [READ, UNREAD])
def test_a_large_upload_in_usual_chunks_is_taken_and_the_connection_stays(served, path, size):
    """Eight megabytes, read or not, and then another request and its answer."""
    count = 8 * 1024 * 1024 // size
    chunk = b"%x\r\n%s\r\n" % (size, b"x" * size)
    with connected(served) as caller:
        caller.sendall(HEAD % path)
        if path == UNREAD:
            answered(caller, b"\r\n\r\n0")
        caller.sendall(chunk * count + b"0\r\n\r\n")
        if path == READ:
            answered(caller, b"\r\n\r\n%d" % (size * count))
        caller.sendall(HEAD % READ + b"5\r\nhello\r\n0\r\n\r\n")
        answered(caller, b"\r\n\r\n5")


def test_hundreds_of_requests_in_one_piece_are_answered_one_after_another(served):
    """Each has its answer, in order, with bodies in chunks too."""
    get = b"GET /unread HTTP/1.1\r\nHost: localhost\r\n\r\n"
    post = HEAD % READ + b"2\r\nab\r\n0\r\n\r\n"
    last = HEAD % READ + b"3\r\nabc\r\n0\r\n\r\n"
    with connected(served) as caller:
        caller.sendall((get + post) * 200 + last)
        answers = answered(caller, b"\r\n\r\n3")
    assert answers.count(b"HTTP/1.1 200") == 401
    assert served.parsed.count(2) == 200


def test_empty_lines_before_and_between_requests_are_ignored(served):
    """A caller that ends a body with one more line than it said is answered all the same."""
    get = b"GET /unread HTTP/1.1\r\nHost: localhost\r\n\r\n"
    post = b"POST /read HTTP/1.1\r\nHost: localhost\r\nContent-Length: 2\r\n\r\nab"
    with connected(served) as caller:
        caller.sendall(b"\r\n" + get)
        assert answered(caller, b"\r\n\r\n0").startswith(b"HTTP/1.1 200")
        caller.sendall(b"\r")
        time.sleep(0.1)
        caller.sendall(b"\n" + post + b"\r\n")
        assert answered(caller, b"\r\n\r\n2").startswith(b"HTTP/1.1 200")
        caller.sendall(post + b"\r\n" + post + b"\r\n\r\n" + get)
        assert answered(caller, b"\r\n\r\n0").count(b"HTTP/1.1 200") == 3


def test_empty_lines_that_go_on_are_refused(served):
    """They are no request, however long they go on."""
    with connected(served) as caller:
        caller.sendall(b"\r\n" * 1_000)
        assert told(rest(caller)) == (400, "malformed_request")
