"""Many callers follow plans of a running service: limits, places, other processes, and the end."""

import asyncio
import contextlib
import json
import signal
import time
from collections.abc import Awaitable, Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import httpx
import pytest

from service.settings import Settings
from service.storage.database import open_database
from service.storage.plans import PlanStore
from service.storage.wishes import Wishes
from tests.service.processes import CALLER, RunningService, free_port

STREAMS = 60
SHARE = STREAMS // 2
LATE_SECONDS = 5.0
"""Time within which everybody hears something; much more than they need on a quiet machine [s]."""

LISTENERS: list["Listener"] = []
"""Everybody who came in the scene that is played."""


@dataclass
class Listener:
    """One caller with an open stream."""

    reader: asyncio.StreamReader
    writer: asyncio.StreamWriter
    status: int = 0
    heard: list[str] = field(default_factory=list)

    async def kinds_until(self, kind: str) -> list[str]:
        """The kinds of events up to one of that kind."""
        while kind not in self.heard:
            line = await self.reader.readline()
            assert line, f"the stream ended after {self.heard}"
            if line.startswith(b"event: "):
                self.heard.append(line.split()[1].decode())
        return self.heard

    async def rest(self) -> str:
        """What is left until the other end closes."""
        return (await self.reader.read()).decode()

    async def leave(self) -> None:
        """Close the connection."""
        self.writer.close()
        with contextlib.suppress(ConnectionError):
            await self.writer.wait_closed()


@pytest.fixture
def service(tmp_path: Path) -> Iterator[RunningService]:
    """A service with room for few streams."""
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(tmp_path / "plans.sqlite3"),
            "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
            "HAULWRIGHT_STREAM_LIMIT": str(STREAMS),
        },
        log=tmp_path / "log",
    )
    running.start()
    yield running
    running.process.kill()
    running.process.wait()


async def come(service: RunningService, plan_id: str, address: str, last: str = "") -> Listener:
    """Begin to follow a plan from an address of this machine."""
    port = int(service.environment["HAULWRIGHT_PORT"])
    reader, writer = await asyncio.open_connection("127.0.0.1", port, local_addr=(address, 0))
    header = f"Last-Event-ID: {last}\r\n" if last else ""
    writer.write(
        f"GET /v1/plans/{plan_id}/events HTTP/1.1\r\nHost: localhost:{port}\r\n{header}"
        "Connection: close\r\n\r\n".encode()
    )
    listener = Listener(reader, writer)
    LISTENERS.append(listener)
    listener.status = int((await reader.readline()).split()[1])
    return listener


async def fill_room(service: RunningService, plan_id: str) -> list[Listener]:
    """As many listeners as there is room for, from two addresses, who have all begun to listen."""
    listeners = [
        await come(service, plan_id, f"127.0.0.{2 + number // SHARE}") for number in range(STREAMS)
    ]
    assert {one.status for one in listeners} == {200}
    for one in listeners:
        await one.kinds_until("queued")
    return listeners


def played(scene: Callable[[], Awaitable[None]]) -> None:
    """Play a scene in a loop of its own."""

    async def play() -> None:
        try:
            async with asyncio.timeout(60):
                await scene()
        finally:
            while LISTENERS:
                await LISTENERS.pop().leave()

    asyncio.run(play())


def test_many_listeners_hear_the_end_and_one_more_is_refused(service):
    """Beyond the limit a problem says when to come again; those within hear what happens."""
    plan_id = service.ask(order="until_finish", solve_seconds=60)

    async def scene() -> None:
        listeners = await fill_room(service, plan_id)
        for address, detail in (
            ("127.0.0.2", f"You have {SHARE} streams open."),
            ("127.0.0.4", "Too many streams are open."),
        ):
            refused = await come(service, plan_id, address)
            head, _, body = (await refused.rest()).partition("\r\n\r\n")
            assert refused.status == 503
            assert "retry-after: 5\r\n" in head.lower()
            assert "content-type: application/problem+json" in head.lower()
            told = json.loads(body)
            assert (told["code"], told["detail"]) == ("too_busy", detail)
        begin = time.monotonic()
        answer = await asyncio.to_thread(CALLER.get, f"{service.url}/healthz")
        assert (answer.status_code, time.monotonic() - begin < 1.0) == (200, True)
        figures = await asyncio.to_thread(CALLER.get, f"{service.url}/metrics")
        assert f"haulwright_event_streams {STREAMS}\n" in figures.text
        await listeners[0].kinds_until("running")
        finish = f"{service.url}/v1/plans/{plan_id}/finish"
        assert (await asyncio.to_thread(CALLER.post, finish)).status_code == 202
        async with asyncio.timeout(LATE_SECONDS * 2):
            heard = await asyncio.gather(*(one.kinds_until("done") for one in listeners))
        for kinds in heard:
            assert kinds == ["queued", "running", "finishing", "done"]

    played(scene)


def test_whoever_leaves_gives_the_place_back(service):
    """Once one of many has closed its connection, another one is let in, again and again."""
    plan_id = service.ask(order="hang", solve_seconds=60)

    async def scene() -> None:
        listeners = await fill_room(service, plan_id)
        for _ in range(3):
            assert (await come(service, plan_id, "127.0.0.3")).status == 503
            await listeners.pop().leave()
            begin = time.monotonic()
            while (next_one := await come(service, plan_id, "127.0.0.3")).status == 503:
                assert time.monotonic() - begin < LATE_SECONDS
                await asyncio.sleep(0.02)
            assert next_one.status == 200
            listeners.append(next_one)

    played(scene)


def test_a_refused_answer_or_an_unknown_plan_takes_no_place(service):
    """However often somebody asks for what is not there, all places stay free."""
    plan_id = service.ask(order="hang", solve_seconds=60)
    address = f"{service.url}/v1/plans/plan_{'0' * 26}/events"
    with httpx.Client() as caller:
        assert {caller.get(address).status_code for _ in range(STREAMS + 5)} == {404}

    async def scene() -> None:
        await fill_room(service, plan_id)

    played(scene)


def test_listeners_hear_what_another_process_does(service):
    """A plan is cancelled and another one deleted through the database alone."""
    service.ask(order="hang", solve_seconds=60)
    service.ask(order="hang", solve_seconds=60)
    cancelled, deleted = service.ask(order="hang"), service.ask(order="hang")
    database = open_database(Path(service.environment["HAULWRIGHT_DATABASE"]))

    async def scene() -> None:
        first, second = [await come(service, plan, "127.0.0.1") for plan in (cancelled, deleted)]
        for one in (first, second):
            await one.kinds_until("queued")
        await asyncio.to_thread(Wishes(database).cancel, tenant_id="default", plan_id=cancelled)
        store = PlanStore(database, queue_limit=9)
        await asyncio.to_thread(store.delete, tenant_id="default", plan_id=deleted)
        async with asyncio.timeout(LATE_SECONDS):
            assert await first.kinds_until("cancelled") == ["queued", "cancelled"]
            assert "event:" not in await second.rest()
        again = await come(service, deleted, "127.0.0.1", "1")
        assert again.status == 404

    try:
        played(scene)
    finally:
        database.dispose()


def test_streams_end_when_the_service_stops_and_go_on_after_a_restart(service):
    """Everybody is let go at once; with the last number the rest comes from the next process."""
    plan_id = service.ask(order="until_finish", solve_seconds=60)

    async def scene() -> None:
        listeners = await fill_room(service, plan_id)
        for one in listeners:
            await one.kinds_until("running")
        begin = time.monotonic()
        service.process.send_signal(signal.SIGTERM)
        ends = await asyncio.gather(*(one.rest() for one in listeners))
        assert time.monotonic() - begin < 3.0
        assert not any("event: done" in end for end in ends)
        await asyncio.to_thread(service.process.wait, 20)
        await asyncio.to_thread(service.start)
        again = await come(service, plan_id, "127.0.0.1", "2")
        await again.kinds_until("running")
        assert again.heard == ["requeued", "running"]

    played(scene)


def test_streams_leave_connections_to_others():
    """A service with few connections has fewer streams; one caller has half of them."""
    settings = Settings(stream_limit=400, connection_limit=100)
    assert (settings.open_streams(), settings.stream_share()) == (80, 40)
    assert Settings(stream_limit=1).stream_share() == 1
    assert Settings().open_streams() < Settings().connection_limit
