"""The web server: uvicorn, told to hand running plans back as soon as it is asked to stop."""

from socket import socket

import uvicorn

from service.app import Application
from service.http.doorkeeper import Doorkeeper
from service.settings import Settings

_GRACE_SECONDS = 5


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
            )
        )
        self._app = app

    async def shutdown(self, sockets: list[socket] | None = None) -> None:
        """Stop solving, let go of callers who wait for an outcome, then stop as usual."""
        wiring = getattr(self._app.state, "wiring", None)
        if wiring is not None:
            wiring.engine.begin_stop()
            wiring.completions.close()
        await super().shutdown(sockets)
