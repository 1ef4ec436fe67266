"""Room for bodies: what is refused while others have it, and when it is free again."""

import asyncio
from collections.abc import Callable

from starlette.types import Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.body_room import BodyRoom

PLANS, CHECKS, ROUTES = "/v1/plans", "/v1/plan-checks", "/v1/files/route"


class Rooms:
    """Rooms of 100 bytes for memory and disk, before an application that reads and waits."""

    def __init__(self) -> None:
        self.go = asyncio.Event()
        self.room = BodyRoom(self._app, room_bytes=100, file_room_bytes=100)
        self.tasks: list[asyncio.Task[str]] = []

    async def _app(self, scope: Scope, receive: Receive, send: Send) -> None:
        while (await receive())["more_body"]:
            pass
        await self.go.wait()

    async def come(self, path: str, *sizes: int, whole: bool = True) -> str:
        """A body comes in pieces of these sizes: what its request heard, "" while it waits."""
        left = [(b"x" * size, i < len(sizes) - 1) for i, size in enumerate(sizes)]

        async def receive() -> Message:
            if not left:
                await self.go.wait()
                return {"type": "http.request", "body": b"", "more_body": False}
            body, more = left.pop(0)
            return {"type": "http.request", "body": body, "more_body": more or not whole}

        async def ask() -> str:
            try:
                await self.room({"type": "http", "path": path, "headers": []}, receive, None)
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


def played(scene: Callable[[Rooms], object]) -> None:
    """Play a scene in a loop of its own."""

    async def play() -> None:
        async with asyncio.timeout(10):
            await scene(Rooms())

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
