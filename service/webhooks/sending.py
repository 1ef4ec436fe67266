"""Sending one webhook: to an address that was checked, without redirects, within a deadline."""

import asyncio
import logging
import ssl
from collections.abc import Iterable
from dataclasses import dataclass

import httpcore

from service.version import VERSION
from service.webhooks.addresses import (
    AddressRefusedError,
    NoAddressError,
    Resolver,
    checked_address,
)

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Sent:
    """What came of an attempt: the status of the answer, if any, and why it failed, if it did."""

    status: int | None = None
    fault: str | None = None


class CheckedBackend(httpcore.AnyIOBackend):
    """Connects to the address that was checked, and resolves the name no second time."""

    def __init__(self, *, any_address: bool, resolver: Resolver) -> None:
        self._any_address = any_address
        self._resolver = resolver

    async def connect_tcp(
        self,
        host: str,
        port: int,
        timeout: float | None = None,  # noqa: ASYNC109 - as the library calls it
        local_address: str | None = None,
        socket_options: Iterable[httpcore.SOCKET_OPTION] | None = None,
    ) -> httpcore.AsyncNetworkStream:
        """Check, then connect."""
        address = await checked_address(
            host, port, any_address=self._any_address, resolver=self._resolver
        )
        return await super().connect_tcp(address, port, timeout, local_address, socket_options)

    async def connect_unix_socket(
        self,
        path: str,
        timeout: float | None = None,  # noqa: ASYNC109, ARG002 - as the library calls it
        socket_options: Iterable[httpcore.SOCKET_OPTION] | None = None,  # noqa: ARG002
    ) -> httpcore.AsyncNetworkStream:
        """Refuse: a webhook never goes to a socket of this machine."""
        raise AddressRefusedError(path)


class Sender:
    """Sends bodies, each on a connection of its own, which no proxy of the environment sees."""

    def __init__(self, *, any_address: bool, limit_seconds: float) -> None:
        """`limit_seconds` is the time for the whole attempt [s]."""
        self._any_address = any_address
        self._limit_seconds = limit_seconds
        self._tls = ssl.create_default_context()

    async def send(
        self, url: str, *, headers: dict[str, str], body: bytes, resolver: Resolver
    ) -> Sent:
        """Post a body. Of the answer only the status is read; whatever fails is told as a fault."""
        backend = CheckedBackend(any_address=self._any_address, resolver=resolver)
        try:
            async with asyncio.timeout(self._limit_seconds):
                status = await self._post(backend, url, headers, body)
        except AddressRefusedError:
            return Sent(fault="address_refused")
        except NoAddressError:
            return Sent(fault="no_address")
        except (TimeoutError, httpcore.TimeoutException):
            return Sent(fault="no_answer_in_time")
        except (httpcore.NetworkError, httpcore.ProtocolError, ssl.SSLError, OSError):
            return Sent(fault="no_connection")
        except Exception:
            logger.exception("a webhook could not be sent: unexpected fault")
            return Sent(fault="no_connection")
        return Sent(status, None if 200 <= status <= 299 else "refused_by_receiver")

    async def _post(
        self, backend: CheckedBackend, url: str, headers: dict[str, str], body: bytes
    ) -> int:
        told: dict[str | bytes, str | bytes] = {
            "Content-Type": "application/json",
            "Content-Length": str(len(body)),
            "User-Agent": f"Haulwright/{VERSION}",
            "Connection": "close",
        }
        told.update(headers)
        async with (
            httpcore.AsyncConnectionPool(
                ssl_context=self._tls, network_backend=backend, max_keepalive_connections=0
            ) as pool,
            pool.stream("POST", url, headers=told, content=body) as answer,
        ):
            return answer.status
