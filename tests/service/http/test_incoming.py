"""What comes in on a connection: how much is parsed at once, and what is refused unparsed."""

import itertools

import h11
import pytest

from service.http.incoming import (
    EVENTS_PER_TURN,
    FREE_CHUNKS,
    MOST_EMPTY_LINES,
    MOST_HEADERS,
    MOST_WAITING_BYTES,
    Incoming,
)

POST = b"POST /v1/plan-checks HTTP/1.1\r\nHost: localhost\r\n"
CHUNKED = POST + b"Transfer-Encoding: chunked\r\n\r\n"
NEXT = b"GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n"


def chunk(size: int, text: bytes = b"x", extension: bytes = b"") -> bytes:
    """One chunk of so many bytes."""
    return b"%x%s\r\n%s\r\n" % (size, extension, (text * size)[:size])


class Read:
    """What one connection made of the bytes that came."""

    def __init__(self, *pieces: bytes) -> None:
        self.turns: list[int] = []
        self.body = b""
        self.ends = 0
        self.code: str | None = None
        self.incoming = Incoming(32 * 1024)
        for piece in pieces:
            self.incoming.receive_data(piece)
            self._parse()

    def _parse(self) -> None:
        while self.code is None:
            self.incoming.begin_turn()
            self.turns.append(self._one_turn())
            if not self.incoming.is_cut_short:
                return

    def _one_turn(self) -> int:
        events = 0
        try:
            while not isinstance(event := self.incoming.next_event(), type):
                events += 1
                if isinstance(event, h11.Data):
                    self.body += event.data
                self.ends += isinstance(event, h11.EndOfMessage)
        except h11.RemoteProtocolError:
            assert self.incoming.problem is not None
            self.code = self.incoming.problem.code
        return events


def test_tiny_chunks_are_refused_after_the_first_thousand():
    """Each costs as much as a large one; the rest of a read is not parsed any more."""
    read = Read(CHUNKED + chunk(1) * 40_000)
    assert read.code == "malformed_request"
    assert "chunks" in str(read.incoming.problem.detail)
    assert FREE_CHUNKS <= len(read.body) <= FREE_CHUNKS + 2
    assert max(read.turns) <= EVENTS_PER_TURN


@pytest.mark.parametrize(
    ("size", "count"), [(1, FREE_CHUNKS), (600, 4_000), (1024, 2_000), (16_384, 128), (2**21, 1)]
)
def test_chunks_of_a_usual_size_are_taken(size, count):
    """A body of two megabytes in chunks of 1 KiB and more, or a small one in chunks of a byte."""
    read = Read(CHUNKED + chunk(size) * count + b"0\r\n\r\n")
    assert (read.code, read.ends, len(read.body)) == (None, 1, size * count)
    assert max(read.turns) <= EVENTS_PER_TURN


def test_a_turn_ends_early_and_the_next_goes_on():
    """Small chunks that may come are parsed in many turns, so others are answered meanwhile."""
    read = Read(CHUNKED + chunk(1) * FREE_CHUNKS + b"0\r\n\r\n")
    assert len(read.turns) >= FREE_CHUNKS // EVENTS_PER_TURN
    assert read.ends == 1


def test_each_body_is_counted_for_itself():
    """The second request of a connection has its own thousand."""
    body = chunk(1) * 900 + b"0\r\n\r\n"
    read = Read(CHUNKED + body)
    for _ in range(2):
        read.incoming.send(h11.Response(status_code=200, headers=[("Content-Length", "0")]))
        read.incoming.send(h11.EndOfMessage())
        read.incoming.start_next_cycle()
        read.incoming.receive_data(CHUNKED + body)
        read._parse()
    assert (read.code, read.ends, len(read.body)) == (None, 3, 2700)


@pytest.mark.parametrize("end", [b"\r\n", b"\n"])
@pytest.mark.parametrize("line", [b"a:", b"a: b", b" folded"])
def test_a_head_of_very_many_lines_is_refused_before_its_lines_are_parsed(end, line):
    """Though it came in one piece, and whether it is whole or not."""
    head = POST.replace(b"\r\n", end) + b"x: y" + end
    assert Read(head + (line + end) * 10_000 + end).code == "headers_too_large"
    assert Read(head + (line + end) * 200).code == "headers_too_large"


def test_a_hundred_headers_are_taken_and_one_more_is_not():
    """The first line and the empty one do not count, nor does what comes behind."""
    head = b"GET / HTTP/1.1\r\nHost: localhost\r\n" + b"a: b\r\n" * (MOST_HEADERS - 1)
    assert Read(head + b"\r\n" + NEXT * 100).code is None
    assert Read(head + b"a: b\r\n\r\n").code == "headers_too_large"


@pytest.mark.parametrize("last", [b"0\r\n", b"000;x=y\r\n"])
@pytest.mark.parametrize("pieces", [1, 2, 3])
def test_a_trailer_of_very_many_lines_is_refused(last, pieces):
    """Behind a body in chunks, in one piece or in several."""
    text = CHUNKED + chunk(5) + last + b"a: b\r\n" * 4_000 + b"\r\n"
    cuts = [len(CHUNKED) + 10 + i for i in range(pieces - 1)]
    bounds = [0, *cuts, len(text)]
    read = Read(*(text[a:b] for a, b in itertools.pairwise(bounds)))
    assert (read.code, read.ends) == ("headers_too_large", 0)


def test_a_short_trailer_is_taken():
    """As many lines as a head may have, and a next request behind it."""
    trailer = b"0\r\n" + b"a: b\r\n" * 100 + b"\r\n"
    read = Read(CHUNKED + chunk(5) + trailer + NEXT * 100)
    assert (read.code, read.ends, read.body) == (None, 1, b"xxxxx")


@pytest.mark.parametrize("text", [b"0\r\n" + b"\n" * 3_000, b"\n" * 3_000])
def test_lines_of_a_body_are_no_trailer(text):
    """Neither in a chunk nor in a body whose length was told, wherever the pieces end."""
    whole = chunk(len(text), text) + b"0\r\n\r\n"
    assert Read(CHUNKED, *(whole[i : i + 7] for i in range(0, len(whole), 7))).body == text
    told = POST + b"Content-Length: %d\r\n\r\n" % len(text)
    assert Read(told, text).body == text
    assert Read(told + text).code is None


def test_long_extensions_count_as_chunks():
    """A chunk of one byte stays one, whatever is written behind its size."""
    assert Read(CHUNKED + chunk(1, extension=b";e=" + b"e" * 90) * 2_000).code == (
        "malformed_request"
    )


def test_what_is_sent_far_ahead_is_a_flood():
    """More than a megabyte that nobody has parsed is not kept."""
    read = Read(CHUNKED)
    read.incoming.receive_data(b"x" * MOST_WAITING_BYTES)
    assert not read.incoming.is_flooded()
    read.incoming.receive_data(b"x")
    assert read.incoming.is_flooded()


@pytest.mark.parametrize(
    "pieces",
    [
        (b"\r\n" + NEXT,),
        (b"\n" + NEXT,),
        (b"\r\n" * MOST_EMPTY_LINES + NEXT,),
        (b"\r\n", NEXT),
        (b"\r", b"\n", NEXT),
        (b"\r\n\r", b"\n" + NEXT[:3], NEXT[3:]),
    ],
)
def test_empty_lines_before_a_request_are_ignored(pieces):
    """However they come, also where the last one is cut in two (RFC 9112, section 2.2)."""
    read = Read(*pieces)
    assert (read.code, read.ends) == (None, 1)


@pytest.mark.parametrize("before", [b"\r\n" * (MOST_EMPTY_LINES + 1), b"\rX", b" \r\n", b"\r\r\n"])
def test_only_a_few_empty_lines_are_ignored_and_nothing_else(before):
    """What goes on for ever, or is no empty line, is no request."""
    assert Read(before + NEXT).code == "malformed_request"


def test_each_request_of_a_connection_may_have_empty_lines_before_it():
    """Older clients send one behind a body; it comes with the body or later."""
    posted = POST + b"Content-Length: 2\r\n\r\n{}"
    read = Read(b"\r\n\r\n" + posted + b"\r\n\r\n")
    for behind in (b"\r\n\r\n", b"", b"\r\n"):
        read.incoming.send(h11.Response(status_code=200, headers=[("Content-Length", "0")]))
        read.incoming.send(h11.EndOfMessage())
        read.incoming.start_next_cycle()
        read._parse()
        read.incoming.receive_data(posted + behind)
        read._parse()
    assert (read.code, read.ends) == (None, 4)
