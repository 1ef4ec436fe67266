"""Room for the bodies of all requests together, so that many fill neither memory nor disk.

Files go to disk as they come, all other bodies to memory; each of the two has a room of its own.
"""

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem

_TO_DISK = "/v1/files/"
"""Bodies at these addresses are written to disk as they come."""
_BUSY = {"Retry-After": "2", "Connection": "close"}


class _Room:
    """So many bytes, and what a request hears for which there are too few of them left [byte]."""

    def __init__(self, room_bytes: int, *, when_full: str) -> None:
        self._free_bytes = room_bytes
        self._when_full = when_full

    def take(self, size_bytes: int) -> None:
        """Take some of the room; the problem of a full room if it is not there."""
        if size_bytes > self._free_bytes:
            raise ServiceProblem(self._when_full, headers=_BUSY)
        self._free_bytes -= size_bytes

    def give_back(self, size_bytes: int) -> None:
        """Let others have what was taken."""
        self._free_bytes += size_bytes


class BodyRoom:
    """Counts the bytes of bodies that are here, and refuses those that have no room [byte]."""

    def __init__(self, app: ASGIApp, *, room_bytes: int, file_room_bytes: int) -> None:
        self._app = app
        self._memory = _Room(room_bytes, when_full="too_busy")
        self._disk = _Room(file_room_bytes, when_full="readers_busy")

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; what its body took is free again when it is answered."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        room = self._disk if scope["path"].startswith(_TO_DISK) else self._memory
        taken = 0

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            size = len(message.get("body", b""))
            room.take(size)
            taken += size
            return message

        try:
            await self._app(scope, counted, send)
        finally:
            room.give_back(taken)
