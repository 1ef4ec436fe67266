"""Requests sent at planned times, whatever the answers before them took.

Latency counts from the planned time, so that a service that stands still for a second is charged
for everything that was due in it. Connections are kept open and used again; each has one request
at a time.
"""

import asyncio
import contextlib
import time
from collections import Counter
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Request:
    """A request ready to be sent."""

    method: str
    path: str
    body: bytes = b""

    def text(self) -> bytes:
        """As it goes over the wire."""
        head = f"{self.method} {self.path} HTTP/1.1\r\nHost: 127.0.0.1\r\n"
        if self.body:
            head += f"Content-Type: application/json\r\nContent-Length: {len(self.body)}\r\n"
        return head.encode() + b"\r\n" + self.body


@dataclass
class Heard:
    """What came back: for each status the latencies in order of the plan [s]; 0: no answer."""

    latencies: dict[int, list[float]] = field(default_factory=dict)
    without_retry: int = 0

    def note(self, status: int, seconds: float, *, retry_after: bool) -> None:
        """Take note of one answer."""
        self.latencies.setdefault(status, []).append(seconds)
        self.without_retry += status == 503 and not retry_after

    def counts(self) -> dict[int, int]:
        """How often each status came."""
        return dict(sorted(Counter({k: len(v) for k, v in self.latencies.items()}).items()))

    def ms(self, share: float, *statuses: int) -> float:
        """The latency that all but a share of the answers keep [ms]; of these statuses only."""
        taken = sorted(
            one for status in statuses or self.latencies for one in self.latencies.get(status, [])
        )
        return 1000 * taken[min(len(taken) - 1, int(share * len(taken)))] if taken else float("nan")


class Caller:
    """Sends requests to one port of this machine, from an address of its own if one is named."""

    def __init__(
        self, port: int, *, timeout_seconds: float = 60.0, address: str | None = None
    ) -> None:
        self.port = port
        self._from = None if address is None else (address, 0)
        self._timeout = timeout_seconds
        self._idle: list[tuple[asyncio.StreamReader, asyncio.StreamWriter]] = []

    async def send(self, request: Request, due: float, heard: Heard) -> None:
        """Send one request, and note its answer."""
        status, retry = 0, False
        # Whatever ends the exchange, nobody answered.
        with contextlib.suppress(OSError, TimeoutError, asyncio.IncompleteReadError, ValueError):
            status, retry = await asyncio.wait_for(self._exchange(request), self._timeout)
        heard.note(status, time.monotonic() - due, retry_after=retry)

    async def _exchange(self, request: Request) -> tuple[int, bool]:
        """Send on a connection that is open, or on a new one where the service has closed it."""
        while self._idle:
            reader, writer = self._idle.pop()
            try:
                return await self._exchange_on(reader, writer, request)
            except asyncio.IncompleteReadError as error:
                if error.partial:
                    raise
            except ConnectionError:
                continue
        reader, writer = await asyncio.open_connection(
            "127.0.0.1", self.port, local_addr=self._from
        )
        return await self._exchange_on(reader, writer, request)

    async def _exchange_on(
        self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, request: Request
    ) -> tuple[int, bool]:
        try:
            writer.write(request.text())
            head = await reader.readuntil(b"\r\n\r\n")
            lines = head.lower().split(b"\r\n")
            fields = dict(line.split(b": ", 1) for line in lines[1:] if b": " in line)
            await reader.readexactly(int(fields.get(b"content-length", b"0")))
        except BaseException:
            writer.close()
            raise
        if fields.get(b"connection") == b"close":
            writer.close()
        else:
            self._idle.append((reader, writer))
        return int(lines[0].split()[1]), b"retry-after" in fields

    async def flood(
        self, request: Request, *, a_second: float, seconds: float, heard: Heard | None = None
    ) -> Heard:
        """Send so many a second for so long, and wait for every answer; add to what was heard."""
        heard = heard or Heard()
        begin = time.monotonic()
        sending = []
        for number in range(int(a_second * seconds)):
            due = begin + number / a_second
            await asyncio.sleep(max(0.0, due - time.monotonic()))
            sending.append(asyncio.create_task(self.send(request, due, heard)))
        await asyncio.gather(*sending)
        return heard

    async def most_a_second(self, request: Request, *, callers: int, seconds: float) -> float:
        """How many are answered a second when so many callers wait for one answer after another."""
        heard = Heard()
        ends_at = time.monotonic() + seconds

        async def one_by_one() -> None:
            while time.monotonic() < ends_at:
                await self.send(request, time.monotonic(), heard)

        await asyncio.gather(*(one_by_one() for _ in range(callers)))
        return heard.counts().get(202, 0) / seconds

    async def crawl(self, connections: int, stop: asyncio.Event) -> int:
        """Hold so many connections that send a header byte by byte; gives those refused."""
        refused = 0

        async def slow() -> None:
            nonlocal refused
            try:
                _, writer = await asyncio.open_connection("127.0.0.1", self.port)
                for letter in b"GET /healthz HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: " + b"x" * 999:
                    if stop.is_set():
                        break
                    writer.write(bytes([letter]))
                    await writer.drain()
                    await asyncio.sleep(1)
                writer.close()
            except OSError:
                refused += 1

        await asyncio.gather(*(slow() for _ in range(connections)))
        return refused

    async def close(self) -> None:
        """Close what is open, and wait until it is."""
        for _, writer in self._idle:
            writer.close()
            with contextlib.suppress(OSError):
                await writer.wait_closed()
