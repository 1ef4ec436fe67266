"""New plans stand in line for a place inside; all other requests go in as they come.

The file is long because it is one list of who is let in when.
"""

import asyncio
from collections.abc import Callable

import pytest
from fastapi.testclient import TestClient
from starlette.types import Message, Receive, Scope, Send

from service.app import create_app
from service.errors import ServiceProblem
from service.http.lines import Lines
from service.http.turnstile import Turnstile, step_aside
from service.http.watch import RequestCounts
from service.server import is_queue_full
from tests.service.fake_translation import TRANSLATION

POST = {"type": "http", "method": "POST", "path": "/v1/plans", "headers": []}


class Held:
    """An application that reads each body and then waits until it is let go."""

    def __init__(self, *, steps_aside: bool = False) -> None:
        self.inside = 0
        self.most_inside = 0
        self.came: list[str] = []
        self.go = asyncio.Semaphore(0)
        self._steps_aside = steps_aside

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Read, wait, answer."""
        status = 202
        try:
            await receive()
        except ServiceProblem:
            status = 503
        else:
            await self._hold(scope)
        await send({"type": "http.response.start", "status": status, "headers": []})
        await send({"type": "http.response.body", "body": b""})

    async def _hold(self, scope: Scope) -> None:
        self.inside += 1
        self.most_inside = max(self.inside, self.most_inside)
        self.came.append(scope.get("client", ("",))[0])
        if self._steps_aside:
            step_aside(scope)
        await self.go.acquire()
        self.inside -= 1


class Gate:
    """A turnstile with three places before an application, and a clock that is set by hand."""

    def __init__(self, app: Held) -> None:
        self.app = app
        self.clock = [0.0]
        self.counts = RequestCounts()
        self.is_full = False
        self.turnstile = Turnstile(
            app,
            self.counts,
            Lines(3, now=lambda: self.clock[0]),
            is_full=lambda _: self.is_full,
        )
        self.tasks: list[asyncio.Task[list[Message]]] = []

    async def come(self, number: int = 1, *, body: asyncio.Event | None = None, **scope) -> None:
        """So many requests come; those that are inside have read their bodies afterwards."""
        for _ in range(number):
            self.tasks.append(asyncio.create_task(self._one({**POST, **scope}, body)))
        await settle()

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

    async def let_go(self, number: int) -> None:
        """Let so many be answered, one after another."""
        for _ in range(number):
            self.app.go.release()
            await settle()

    async def end(self) -> None:
        """Let everybody go."""
        await self.let_go(len(self.tasks))
        await asyncio.gather(*self.tasks)
        self.app.go = asyncio.Semaphore(0)


async def settle() -> None:
    """Let every task come to where it waits."""
    for _ in range(8):
        await asyncio.sleep(0)


def played(scene: Callable[[Gate], object], *, steps_aside: bool = False) -> None:
    """Play a scene in a loop of its own."""

    async def play() -> None:
        async with asyncio.timeout(10):
            await scene(Gate(Held(steps_aside=steps_aside)))

    asyncio.run(play())


def test_three_are_inside_and_fifteen_wait():
    """Of twenty at once two are refused; all others are answered, never more than three at once."""

    async def scene(gate):
        await gate.come(20)
        assert (gate.app.inside, gate.refused()) == (3, 2)
        await gate.end()
        assert [one.result()[0]["status"] for one in gate.tasks].count(202) == 18
        assert gate.app.most_inside == 3

    played(scene)


def test_whoever_sends_slowly_keeps_nobody_out():
    """Forty that wait for their bodies have no place; when these come, they stand in line."""

    async def scene(gate):
        body = asyncio.Event()
        for _ in range(40):
            await gate.come(body=body)
            gate.clock[0] += 0.1
        await gate.come(3)
        assert (gate.app.inside, gate.refused()) == (3, 0)
        body.set()
        await settle()
        assert (gate.app.inside, gate.refused()) == (3, 25)
        await gate.end()
        assert gate.app.most_inside == 3

    played(scene)


def test_whoever_waits_for_an_outcome_has_stepped_aside():
    """Sixty wait for their plans; others still come in."""

    async def scene(gate):
        for _ in range(6):
            await gate.come(10)
        assert (gate.app.inside, gate.refused()) == (60, 0)
        await gate.end()

    played(scene, steps_aside=True)


def test_a_flood_of_one_address_keeps_out_no_other():
    """Somebody who comes after eighteen of one address comes in second."""

    async def scene(gate):
        await gate.come(20, client=("192.0.2.1", 4711))
        await gate.come(1, client=("192.0.2.2", 4711))
        assert gate.refused() == 2
        await gate.let_go(2)
        assert gate.app.came[3:] == ["192.0.2.1", "192.0.2.2"]
        await gate.end()

    played(scene)


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


@pytest.mark.parametrize("name", [b"content-length", b"idempotency-key", b"origin"])
def test_a_queue_that_is_full_is_told_without_a_look_at_the_request(name):
    """Only a key of the request, or another website, has it looked at; later all come in."""

    async def scene(gate):
        gate.is_full = True
        await gate.come(40, headers=[(name, b"1")])
        if name == b"content-length":
            assert (gate.app.inside, gate.refused()) == (0, 40)
            start, body = gate.tasks[-1].result()
            assert dict(start["headers"])[b"retry-after"] == b"30"
            assert b'"code":"queue_full"' in body["body"]
            assert 'haulwright_http_refusals_total{code="queue_full"} 40' in gate.counts.lines()
        else:
            assert gate.app.inside == 3
        gate.is_full = False
        await gate.end()
        await gate.come()
        assert gate.app.inside == 1
        await gate.end()

    played(scene)


def test_a_full_queue_keeps_nobody_from_hearing_that_a_key_is_needed(settings):
    """Without a key, or with a made-up one, 401; a tenant whose key was found before hears 503."""
    app = create_app(settings.model_copy(update={"keys": "required"}), TRANSLATION)
    full = []
    turnstile = Turnstile(app, app.counts, is_full=lambda _: bool(full), needs_keys=True)
    with TestClient(turnstile) as caller:
        key = app.state.wiring.keys.make(tenant_id="north", scopes=("plan",))
        shown = ({}, *({"Authorization": f"Bearer {one}"} for one in ("hw_made_up", key)))
        before = [caller.post("/v1/plans", json={}, headers=one).status_code for one in shown]
        full.append(1)
        after = [caller.post("/v1/plans", json={}, headers=one).status_code for one in shown]
    assert (before, after) == ([401, 401, 202], [401, 401, 503])


def test_the_server_knows_a_full_queue_from_the_first_refusal_on(settings):
    """Before the start it says no; once a plan was refused it says yes."""
    app = create_app(settings.model_copy(update={"queue_limit": 1}), TRANSLATION)
    assert not is_queue_full(app)
    with TestClient(app):
        app.state.wiring.engine.stop()
        order = {"tenant_id": "t", "reference": None, "solve_seconds": 1.0, "document": {}}
        app.state.wiring.store.accept(**order)
        assert not is_queue_full(app, "t")
        with pytest.raises(ServiceProblem, match="queue_full"):
            app.state.wiring.store.accept(**order)
        assert is_queue_full(app, "t")
        assert not is_queue_full(app)


class OnlyOnce(Lines):
    """Lines that send away whoever has left for a while."""

    async def enter(self, caller: str, *, again: bool = False) -> bool:
        """Whether they come for the first time."""
        return not again


def test_a_body_that_comes_too_late_is_refused_as_all_are(settings):
    """A problem document with Retry-After, and the refusal is counted once."""
    app = create_app(settings, TRANSLATION)
    turnstile = Turnstile(app, app.counts, OnlyOnce())

    async def slowly(scope: Scope, receive: Receive, send: Send) -> None:
        async def received() -> Message:
            await asyncio.sleep(0.01)
            return await receive()

        await turnstile(scope, received, send)

    with TestClient(slowly) as caller:
        answer = caller.post("/v1/plans", json={"reference": "late"})
        assert (answer.status_code, answer.json()["code"]) == (503, "too_busy")
        assert answer.headers["retry-after"] == "2"
        assert 'refusals_total{code="too_busy"} 1' in caller.get("/metrics").text
        assert caller.get("/v1/plans").json()["plans"] == []


def test_callers_with_keys_are_told_apart_by_tenant(settings):
    """From the second request on, the line is that of the tenant of the key."""
    names = []

    class Noted(Lines):
        async def enter(self, caller: str, *, again: bool = False) -> bool:
            names.append(caller)
            return await super().enter(caller, again=again)

    app = create_app(settings.model_copy(update={"keys": "required"}), TRANSLATION)
    with TestClient(Turnstile(app, app.counts, Noted())) as caller:
        store = app.state.wiring.keys
        made = {name: store.make(tenant_id=name, scopes=("plan",)) for name in ("north", "south")}
        for shown in (*made.values(), *made.values(), "hw_made_up", "hw_made_up"):
            caller.post("/v1/plans", json={}, headers={"Authorization": f"Bearer {shown}"})
    stranger = "address testclient"
    assert names == [stranger, stranger, "tenant north", "tenant south", stranger, stranger]


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
