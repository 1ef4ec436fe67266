"""Room for bodies: what is refused while others have it, and when it is free again."""

import asyncio
import gzip
import random
from collections.abc import Callable

from starlette.requests import Request
from starlette.types import Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.body_room import BodyRoom, give_room_back
from service.http.request_body import read_json_body

KEY = b"Bearer hw_north"
PLANS, CHECKS, ROUTES = "/v1/plans", "/v1/plan-checks", "/v1/files/route"


class Rooms:
    """Rooms of 100 bytes for memory and disk, before an application that reads and waits.

    Each caller may have so many of them.
    """

    def __init__(self, share_bytes: int = 100, *, works_out: bool = False) -> None:
        self.go = asyncio.Event()
        self.room = BodyRoom(
            self._app, room_bytes=100, file_room_bytes=100, share_bytes=share_bytes
        )
        self.tasks: list[asyncio.Task[str]] = []
        self._works_out = works_out

    async def _app(self, scope: Scope, receive: Receive, send: Send) -> None:
        while (await receive())["more_body"]:
            pass
        if self._works_out:
            give_room_back(scope)
        await self.go.wait()
        if KEY in dict(scope["headers"]).values():
            scope.setdefault("state", {})["tenant_id"] = "north"

    async def come(
        self, path: str, *sizes: int, whole: bool = True, client: str = "", key: bytes = b""
    ) -> str:
        """A body comes in pieces of these sizes: what its request heard, "" while it waits."""
        left = [(b"x" * size, i < len(sizes) - 1) for i, size in enumerate(sizes)]

        async def receive() -> Message:
            if not left:
                await self.go.wait()
                return {"type": "http.request", "body": b"", "more_body": False}
            body, more = left.pop(0)
            return {"type": "http.request", "body": body, "more_body": more or not whole}

        headers = [(b"authorization", key)] if key else []
        scope = {"type": "http", "path": path, "headers": headers, "client": (client, 4711)}

        async def ask() -> str:
            try:
                await self.room(scope, receive, None)
            except ServiceProblem as problem:
                return problem.code
            return "answered"

        self.tasks.append(asyncio.create_task(ask()))
        for _ in range(5):
            await asyncio.sleep(0)
        last = self.tasks[-1]
        return last.result() if last.done() else ""

    async def end(self) -> None:
        """Everybody is answered."""
        self.go.set()
        await asyncio.gather(*self.tasks)
        self.go.clear()


def played(scene: Callable[[Rooms], object], *share: int, works_out: bool = False) -> None:
    """Play a scene in a loop of its own."""

    async def play() -> None:
        async with asyncio.timeout(10):
            await scene(Rooms(*share, works_out=works_out))

    asyncio.run(play())


def test_bodies_together_have_the_room_and_no_more():
    """What does not fit is refused; once the others are answered, it fits."""

    async def scene(rooms):
        assert await rooms.come(PLANS, 30, 30) == ""
        assert await rooms.come(CHECKS, 30, 11) == "too_busy"
        assert await rooms.come(CHECKS, 40) == ""
        await rooms.end()
        assert await rooms.come(CHECKS, 100) == ""
        await rooms.end()

    played(scene)


def test_files_on_disk_have_a_room_of_their_own():
    """Files together are refused beyond it, and take nothing from the room of other bodies."""

    async def scene(rooms):
        assert await rooms.come(ROUTES, 60, 40) == ""
        assert await rooms.come(ROUTES, 1) == "readers_busy"
        assert await rooms.come(PLANS, 100) == ""
        await rooms.end()
        assert await rooms.come(ROUTES, 100) == ""
        await rooms.end()

    played(scene)


def test_one_caller_has_a_share_of_the_room():
    """Slow bodies of one address are refused beyond its share, and others have the rest."""

    async def scene(rooms):
        assert await rooms.come(CHECKS, 25, whole=False, client="192.0.2.1") == ""
        assert await rooms.come(CHECKS, 1, client="192.0.2.1") == "too_busy"
        for last in (2, 3, 4):
            assert await rooms.come(PLANS, 25, client=f"192.0.2.{last}") == ""
        assert await rooms.come(PLANS, 1, client="192.0.2.5") == "too_busy"
        await rooms.end()
        assert await rooms.come(CHECKS, 25, client="192.0.2.1") == ""
        await rooms.end()

    played(scene, 25)


def test_a_tenant_with_a_key_is_one_caller_from_every_address():
    """Once its key was found, its share is that of the tenant, not that of the address."""

    async def scene(rooms):
        assert await rooms.come(CHECKS, 1, client="192.0.2.1", key=KEY) == ""
        await rooms.end()
        assert await rooms.come(CHECKS, 25, client="192.0.2.2", key=KEY) == ""
        assert await rooms.come(CHECKS, 1, client="192.0.2.3", key=KEY) == "too_busy"
        assert await rooms.come(CHECKS, 25, client="192.0.2.2") == ""
        await rooms.end()

    played(scene, 25)


def unpacked(room_bytes: int, *bodies: bytes) -> list[str]:
    """What requests with these bodies hear, one after another, where the room is so large."""
    asked = {b"content-type": b"application/json", b"content-encoding": b"gzip"}

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        request = Request(scope, receive)
        body = await read_json_body(request, limit_bytes=100_000, limit_seconds=5)
        scope["read"] = str(len(body))

    async def ask(body: bytes) -> str:
        async def receive() -> Message:
            return {"type": "http.request", "body": body, "more_body": False}

        scope = {"type": "http", "path": CHECKS, "headers": list(asked.items())}
        try:
            await room(scope, receive, None)
        except ServiceProblem as problem:
            return problem.code
        return scope["read"]

    room = BodyRoom(app, room_bytes=room_bytes, file_room_bytes=1, share_bytes=room_bytes)
    return [asyncio.run(ask(body)) for body in bodies]


def test_what_a_packed_body_holds_is_counted():
    """Few bytes that unpack to many need the room of these, which is given back in the end."""
    large, small = gzip.compress(b" " * 90_000), gzip.compress(b" " * 40_000)
    assert unpacked(80_000, large, small, small, large) == [
        "too_busy",
        "40000",
        "40000",
        "too_busy",
    ]
    dense = random.Random(1).randbytes(90_000)
    assert unpacked(91_000, gzip.compress(dense), large) == ["90000", "90000"]


def test_whoever_waits_for_an_outcome_has_given_the_room_back():
    """Ten bodies are worked out and wait; the whole room is there for others, and only once."""

    async def scene(rooms):
        for _ in range(10):
            assert await rooms.come(PLANS, 60, 40) == ""
        await rooms.end()
        assert await rooms.come(CHECKS, 60, 40, whole=False) == ""
        assert await rooms.come(CHECKS, 1) == "too_busy"
        await rooms.end()

    played(scene, works_out=True)
