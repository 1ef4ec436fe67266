"""The web server: uvicorn, told to hand running plans back as soon as it is asked to stop."""

import asyncio
import logging
import resource
import time
from socket import socket
from typing import Any

import uvicorn

from service.app import Application
from service.http.doorkeeper import Doorkeeper
from service.settings import Settings

_GRACE_SECONDS = 5
_KEEP_ALIVE_SECONDS = 15
_BACKLOG = 128
_HEADER_BYTES = 32 * 1024
_QUIET_SECONDS = 10.0
_DESCRIPTORS_BESIDE_CONNECTIONS = 500

logger = logging.getLogger(__name__)


class HandingBackServer(uvicorn.Server):
    """Hands running plans back on the first signal, not after the last open connection."""

    def __init__(self, app: Application, settings: Settings) -> None:
        super().__init__(
            uvicorn.Config(
                Doorkeeper(app, hosts=settings.known_hosts()),
                host=settings.host,
                port=settings.port,
                lifespan="on",
                log_config=None,
                server_header=False,
                timeout_graceful_shutdown=_GRACE_SECONDS,
                timeout_keep_alive=_KEEP_ALIVE_SECONDS,
                limit_concurrency=settings.connection_limit,
                backlog=_BACKLOG,
                http="h11",
                h11_max_incomplete_event_size=_HEADER_BYTES,
            )
        )
        self._app = app
        self._connection_limit = settings.connection_limit

    async def startup(self, sockets: list[socket] | None = None) -> None:
        """Make room for connections, and see that a lack of them floods no log."""
        raise_descriptor_limit(self._connection_limit + _DESCRIPTORS_BESIDE_CONNECTIONS)
        asyncio.get_running_loop().set_exception_handler(QuietHandler())
        await super().startup(sockets=sockets)

    async def shutdown(self, sockets: list[socket] | None = None) -> None:
        """Stop solving, let go of callers who wait for an outcome, then stop as usual."""
        wiring = getattr(self._app.state, "wiring", None)
        if wiring is not None:
            wiring.engine.begin_stop()
            wiring.completions.close()
        await super().shutdown(sockets)


class QuietHandler:
    """Says once in ten seconds that no more connections can be taken, however often it happens."""

    def __init__(self) -> None:
        self._said_at = -_QUIET_SECONDS

    def __call__(self, loop: asyncio.AbstractEventLoop, context: dict[str, Any]) -> None:
        """Pass on everything else."""
        if "out of system resource" not in context.get("message", ""):
            loop.default_exception_handler(context)
        elif time.monotonic() - self._said_at >= _QUIET_SECONDS:
            self._said_at = time.monotonic()
            logger.error("no more connections can be taken: %s", context.get("exception"))


def raise_descriptor_limit(wanted: int) -> None:
    """Allow this process as many open files as it may need, where the system lets it."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    most = wanted if hard == resource.RLIM_INFINITY else min(wanted, hard)
    if soft != resource.RLIM_INFINITY and most > soft:
        resource.setrlimit(resource.RLIMIT_NOFILE, (most, hard))
