"""Look-ups of names. The system may take half a minute for one, and nothing ends it early."""

import asyncio
import contextlib
import socket
import threading

Found = tuple[list[str], Exception | None]


class LookUp:
    """Looks a name up in a thread of its own, which may outlast whoever waits for it.

    A queue before a pool would be full of names that nobody waits for any more. So each has its
    thread, and whoever makes look-ups counts those that have not ended, and begins no more than it
    has places.
    """

    def __init__(self) -> None:
        self._threads = 0
        self._none_left = asyncio.Event()
        self._none_left.set()

    async def __call__(self, host: str, port: int) -> list[str]:
        """The addresses of a host, as the system knows them."""
        loop = asyncio.get_running_loop()
        found: asyncio.Future[Found] = loop.create_future()

        def look() -> None:
            told = _looked_up(host, port)
            # The loop is closed where the service has stopped meanwhile.
            with contextlib.suppress(RuntimeError):
                loop.call_soon_threadsafe(self._end_one, found, told)

        threading.Thread(target=look, name="look-up", daemon=True).start()
        self._threads += 1
        self._none_left.clear()
        addresses, fault = await found
        if fault is not None:
            raise fault
        return addresses

    async def ended(self) -> None:
        """Wait until no thread is left of what was asked."""
        await self._none_left.wait()

    def _end_one(self, found: asyncio.Future[Found], told: Found) -> None:
        self._threads -= 1
        if not self._threads:
            self._none_left.set()
        if not found.done():
            found.set_result(told)


def _looked_up(host: str, port: int) -> Found:
    try:
        entries = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    except Exception as fault:  # noqa: BLE001 - raised again where it was asked
        return [], fault
    return [str(entry[4][0]) for entry in entries], None
