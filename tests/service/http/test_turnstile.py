"""New plans are let in as long as those inside do not wait long; all other requests always are."""

import asyncio
from collections.abc import Callable

import pytest
from starlette.types import Message, Receive, Scope, Send

from service.http.turnstile import Turnstile, step_aside
from service.http.watch import RequestCounts

POST = {"type": "http", "method": "POST", "path": "/v1/plans", "headers": []}


class Held:
    """An application that reads each body and then waits until it is let go."""

    def __init__(self, *, steps_aside: bool = False) -> None:
        self.inside = 0
        self.go = asyncio.Event()
        self._steps_aside = steps_aside

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Read, wait, answer."""
        await receive()
        self.inside += 1
        if self._steps_aside:
            step_aside(scope)
        await self.go.wait()
        self.inside -= 1
        await send({"type": "http.response.start", "status": 202, "headers": []})
        await send({"type": "http.response.body", "body": b""})


class Gate:
    """A turnstile before an application, with a clock that is set by hand."""

    def __init__(self, app: Held) -> None:
        self.app = app
        self.clock = [0.0]
        self.counts = RequestCounts()
        self.turnstile = Turnstile(app, self.counts, now=lambda: self.clock[0])
        self.tasks: list[asyncio.Task[list[Message]]] = []

    async def come(self, number: int = 1, *, body: asyncio.Event | None = None, **scope) -> None:
        """So many requests come; those that are inside have read their bodies afterwards."""
        for _ in range(number):
            self.tasks.append(asyncio.create_task(self._one({**POST, **scope}, body)))
        for _ in range(5):
            await asyncio.sleep(0)

    async def _one(self, scope: Scope, body: asyncio.Event | None) -> list[Message]:
        sent: list[Message] = []

        async def receive() -> Message:
            if body is not None:
                await body.wait()
            return {"type": "http.request", "body": b"{}", "more_body": False}

        async def send(message: Message) -> None:
            sent.append(message)

        await self.turnstile(scope, receive, send)
        return sent

    def refused(self) -> int:
        """How many have been refused so far."""
        return sum(one.done() and one.result()[0]["status"] == 503 for one in self.tasks)

    async def end(self) -> None:
        """Let everybody go."""
        self.app.go.set()
        await asyncio.gather(*self.tasks)
        self.app.go.clear()


def played(scene: Callable[[Gate], object], *, steps_aside: bool = False) -> None:
    """Play a scene in a loop of its own."""

    async def play() -> None:
        async with asyncio.timeout(10):
            await scene(Gate(Held(steps_aside=steps_aside)))

    asyncio.run(play())


def test_a_burst_goes_in_whole_and_no_more():
    """Eighteen at once are let in, the next two refused; when they are done, the next come in."""

    async def scene(gate):
        await gate.come(20)
        assert (gate.app.inside, gate.refused()) == (18, 2)
        await gate.end()
        await gate.come(18)
        assert (gate.app.inside, gate.refused()) == (18, 2)
        await gate.end()

    played(scene)


def test_of_a_flood_only_eight_are_inside():
    """When eight have stood inside for a second, more are refused until fewer than eight do."""

    async def scene(gate):
        await gate.come(8)
        gate.clock[0] = 0.9
        await gate.come(2)
        assert gate.refused() == 0
        gate.clock[0] = 1.0
        await gate.come(3)
        assert (gate.app.inside, gate.refused()) == (10, 3)
        await gate.end()
        await gate.come(10)
        assert (gate.app.inside, gate.refused()) == (10, 3)
        await gate.end()

    played(scene)


def test_whoever_sends_slowly_keeps_nobody_out():
    """Forty that wait for their bodies are not counted until these are there."""

    async def scene(gate):
        body = asyncio.Event()
        await gate.come(40, body=body)
        await gate.come(18)
        assert (gate.app.inside, gate.refused()) == (18, 0)
        body.set()
        await gate.end()
        assert gate.refused() == 0

    played(scene)


def test_whoever_waits_for_an_outcome_has_stepped_aside():
    """Sixty wait for their plans; others still come in."""

    async def scene(gate):
        for _ in range(6):
            await gate.come(10)
        assert (gate.app.inside, gate.refused()) == (60, 0)
        await gate.end()

    played(scene, steps_aside=True)


@pytest.mark.parametrize("scope", [{"method": "GET"}, {"path": "/v1/plan-checks"}])
def test_nothing_but_new_plans_is_counted(scope):
    """Reading plans and checking them is guarded elsewhere."""

    async def scene(gate):
        await gate.come(40, **scope)
        assert (gate.app.inside, gate.refused()) == (40, 0)
        await gate.end()

    played(scene)


@pytest.mark.parametrize(
    ("length", "closes"),
    [(b"262144", False), (b"262145", True), (b"9" * 30, True), (None, True)],
)
def test_a_refusal_says_when_to_come_again_and_is_counted(length, closes):
    """A problem document with Retry-After; the connection of a large body is closed."""

    async def scene(gate):
        headers = [] if length is None else [(b"content-length", length)]
        await gate.come(18)
        await gate.come(1, headers=headers)
        start, body = gate.tasks[-1].result()
        sent = dict(start["headers"])
        assert start["status"] == 503
        assert sent[b"retry-after"] == b"2"
        assert sent[b"cache-control"] == b"no-store"
        assert (sent.get(b"connection") == b"close") is closes
        assert b'"code":"too_busy"' in body["body"]
        assert 'haulwright_http_refusals_total{code="too_busy"} 1' in gate.counts.lines()
        await gate.end()

    played(scene)


def test_a_request_that_fails_inside_counts_no_more():
    """Its place is free again, whatever ends it."""

    async def broken(scope: Scope, receive: Receive, send: Send) -> None:
        raise ConnectionResetError

    async def play() -> None:
        turnstile = Turnstile(broken, RequestCounts())
        for _ in range(40):
            with pytest.raises(ConnectionResetError):
                await turnstile(dict(POST), None, None)

    asyncio.run(play())
