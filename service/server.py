"""The web server: uvicorn, told to hand running plans back as soon as it is asked to stop."""

import asyncio
import logging
import resource
import time
from socket import socket
from typing import Any

import uvicorn

from service.app import Application
from service.http.body_room import BodyRoom
from service.http.connection import ConnectionLimits, GuardedProtocol
from service.http.cross_origin import ReadableRefusals
from service.http.doorkeeper import MOST_HEAD_BYTES, Doorkeeper
from service.http.lines import Lines
from service.http.turnstile import Turnstile
from service.settings import Settings
from service.wiring import DEFAULT_TENANT, Wiring

_GRACE_SECONDS = 5
_KEEP_ALIVE_SECONDS = 15
_BACKLOG = 128
_QUIET_SECONDS = 10.0
_DESCRIPTORS_BESIDE_CONNECTIONS = 500
_FEWEST_BESIDE_CONNECTIONS = 100
"""Open files that desks, solves and the database need, where the system allows few in all."""
_MOST_REFUSED = 50
"""Connections beyond the limit that are told so; those beyond these are closed at once."""

logger = logging.getLogger(__name__)


class HandingBackServer(uvicorn.Server):
    """Hands running plans back on the first signal, not after the last open connection."""

    def __init__(self, app: Application, settings: Settings) -> None:
        limits = connection_limits(settings)

        class Protocol(GuardedProtocol):
            """The protocol of this server."""

        origins = settings.known_origins()
        Protocol.limits, Protocol.origins, Protocol.counts = limits, origins, app.counts
        room = BodyRoom(
            app,
            room_bytes=settings.body_room_bytes,
            file_room_bytes=settings.file_room_bytes(),
            share_bytes=settings.body_share_bytes(),
        )
        # While all desks are busy, another is read or stored, and a flood leaves one place free.
        within = Turnstile(
            room,
            app.counts,
            Lines(settings.desks + 2),
            is_full=lambda tenant_id: is_queue_full(app, tenant_id),
            needs_keys=settings.needs_keys(),
        )
        super().__init__(
            uvicorn.Config(
                ReadableRefusals(
                    Doorkeeper(within, app.counts, hosts=settings.known_hosts()), origins=origins
                ),
                host=settings.host,
                port=settings.port,
                lifespan="on",
                log_config=None,
                server_header=False,
                timeout_graceful_shutdown=_GRACE_SECONDS,
                timeout_keep_alive=_KEEP_ALIVE_SECONDS,
                backlog=_BACKLOG,
                http=Protocol,
                ws="none",
                # The lines of `watch` tell of each request, without its query.
                access_log=False,
                h11_max_incomplete_event_size=MOST_HEAD_BYTES,
            )
        )
        self._app = app

    async def startup(self, sockets: list[socket] | None = None) -> None:
        """See that a lack of open files floods no log."""
        asyncio.get_running_loop().set_exception_handler(QuietHandler())
        await super().startup(sockets=sockets)

    async def shutdown(self, sockets: list[socket] | None = None) -> None:
        """Stop whatever takes long, let go of callers who wait for it, then stop as usual."""
        wiring = getattr(self._app.state, "wiring", None)
        if wiring is not None:
            wiring.engine.begin_stop()
            wiring.completions.close()
            wiring.followers.close()
            for serves_one in (wiring.file_reader, wiring.pdf_printer, wiring.questions):
                serves_one.begin_stop()
        await super().shutdown(sockets)


def is_queue_full(app: Application, tenant_id: str | None = None) -> bool:
    """Whether the queue of plans was full for a tenant a moment ago; False before the start."""
    wiring: Wiring | None = getattr(app.state, "wiring", None)
    return wiring is not None and wiring.store.room.is_known_full(tenant_id or DEFAULT_TENANT)


def connection_limits(settings: Settings) -> ConnectionLimits:
    """The limits of connections, as far as the system allows this process open files."""
    wanted = settings.connection_limit
    raise_descriptor_limit(wanted + _DESCRIPTORS_BESIDE_CONNECTIONS)
    allowed, _ = resource.getrlimit(resource.RLIMIT_NOFILE)
    if allowed != resource.RLIM_INFINITY:
        room = allowed - _FEWEST_BESIDE_CONNECTIONS - _MOST_REFUSED
        if room < wanted:
            wanted = max(1, room)
            logger.warning("only %s connections: the system allows %s open files", wanted, allowed)
    return ConnectionLimits(
        connections=wanted,
        refused=_MOST_REFUSED,
        header_seconds=settings.header_seconds,
        reading_seconds=settings.reading_seconds,
    )


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
