"""Room for the bodies of all requests together, so that many large ones do not fill the memory."""

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.errors import ServiceProblem

_TO_DISK = "/v1/files/"
"""Bodies at these addresses are written to disk as they come."""
_BUSY = {"Retry-After": "2", "Connection": "close"}


class BodyRoom:
    """Counts the bytes of bodies that are here, and refuses those that have no room [byte]."""

    def __init__(self, app: ASGIApp, *, room_bytes: int) -> None:
        self._app = app
        self._room_bytes = room_bytes

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; what its body took is free again when it is answered."""
        if scope["type"] != "http" or scope["path"].startswith(_TO_DISK):
            await self._app(scope, receive, send)
            return
        taken = 0

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            size = len(message.get("body", b""))
            if size > self._room_bytes:
                raise ServiceProblem("too_busy", headers=_BUSY)
            self._room_bytes -= size
            taken += size
            return message

        try:
            await self._app(scope, counted, send)
        finally:
            self._room_bytes += taken
