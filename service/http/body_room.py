"""Room for the bodies of all requests together, so that many fill neither memory nor disk.

Files go to disk as they come, all other bodies to memory; each of the two has a room of its own.
"""

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.callers import Callers

_TO_DISK = "/v1/files/"
"""Bodies at these addresses are written to disk as they come."""
_TAKE = "take_room"
_GIVE_BACK = "give_room_back"
_BUSY = {"Retry-After": "2", "Connection": "close"}


class _Room:
    """So many bytes, a share of them for each caller, and what is said where they do not do."""

    def __init__(self, room_bytes: int, *, share_bytes: int, when_full: str) -> None:
        self._free_bytes = room_bytes
        self._share_bytes = share_bytes
        self._taken_bytes: dict[str, int] = {}
        self._when_full = when_full

    def take(self, caller: str, size_bytes: int) -> None:
        """Take some of the room; the problem of a full room if that is not there."""
        taken_bytes = self._taken_bytes.get(caller, 0) + size_bytes
        if size_bytes > self._free_bytes or taken_bytes > self._share_bytes:
            raise ServiceProblem(self._when_full, headers=_BUSY)
        self._free_bytes -= size_bytes
        self._taken_bytes[caller] = taken_bytes

    def give_back(self, caller: str, size_bytes: int) -> None:
        """Let others have what a caller took."""
        self._free_bytes += size_bytes
        self._taken_bytes[caller] -= size_bytes
        if not self._taken_bytes[caller]:
            del self._taken_bytes[caller]


class _Body:
    """The body of one request, and what it takes of its room."""

    def __init__(self, room: _Room, caller: str) -> None:
        self._room = room
        self._caller = caller
        self._size_bytes = 0

    def receiver(self, receive: Receive) -> Receive:
        """Receives the body, and takes room for each piece of it."""

        async def received() -> Message:
            message = await receive()
            size = len(message.get("body", b""))
            if size:
                self.take(size)
            return message

        return received

    def take(self, size_bytes: int) -> None:
        """Take some more of the room."""
        self._room.take(self._caller, size_bytes)
        self._size_bytes += size_bytes

    def leave(self) -> None:
        """Give back what it took; it is no longer kept."""
        if self._size_bytes:
            self._room.give_back(self._caller, self._size_bytes)
            self._size_bytes = 0


class BodyRoom:
    """Counts the bytes of bodies that are here, and refuses those that have no room [byte].

    No caller has more than a share of the room for bodies in memory, which should hold the largest
    body. In the room for files each may have all of it.
    """

    def __init__(
        self, app: ASGIApp, *, room_bytes: int, file_room_bytes: int, share_bytes: int
    ) -> None:
        self._app = app
        self._callers = Callers()
        self._memory = _Room(room_bytes, share_bytes=share_bytes, when_full="too_busy")
        self._disk = _Room(file_room_bytes, share_bytes=file_room_bytes, when_full="readers_busy")

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; what its body took is free again when it is answered."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        is_file = scope["path"].startswith(_TO_DISK)
        body = _Body(self._disk if is_file else self._memory, self._callers.name(scope))
        if not is_file:
            scope.setdefault("state", {}).update({_TAKE: body.take, _GIVE_BACK: body.leave})
        try:
            await self._app(scope, body.receiver(receive), send)
        finally:
            body.leave()
            self._callers.learn(scope)


def give_room_back(scope: Scope) -> None:
    """Give back the room of a body that is no longer kept, before a long wait."""
    give_back = scope.get("state", {}).get(_GIVE_BACK)
    if give_back is not None:
        give_back()


def take_room(scope: Scope, size_bytes: int) -> None:
    """Take room for more than what came, as when a body is unpacked; refused as a body is."""
    take = scope.get("state", {}).get(_TAKE)
    if take is not None:
        take(size_bytes)
