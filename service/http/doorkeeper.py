"""Requests turned away early: foreign hosts, long headers, two lengths of one body."""

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from service.errors import ServiceProblem
from service.http.connection import refusal
from service.http.watch import RequestCounts

MOST_HEAD_BYTES = 32 * 1024
"""The most that the first line and the headers may take; the server stops to wait there, too."""


class Doorkeeper:
    """Takes requests for the hosts of the service; none are named where it takes any.

    A page in a browser can lead a name of its own to this machine. Its requests name that host.
    """

    def __init__(self, app: ASGIApp, counts: RequestCounts, *, hosts: frozenset[str]) -> None:
        self._app = app
        self._counts = counts
        self._hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or hand it on."""
        problem = self._problem(scope) if scope["type"] == "http" else None
        if problem is None:
            await self._app(scope, receive, send)
        else:
            await refusal(problem, scope, self._counts)(scope, receive, send)

    def _problem(self, scope: Scope) -> ServiceProblem | None:
        if _head_bytes(scope) > MOST_HEAD_BYTES:
            return ServiceProblem("headers_too_large")
        headers = Headers(scope=scope)
        if "transfer-encoding" in headers and "content-length" in headers:
            # Two servers on the way may disagree where the body ends (RFC 9112, section 6.1).
            detail = "Send either Content-Length or Transfer-Encoding, not both."
            return ServiceProblem("malformed_request", detail)
        if self._hosts and _host_of(headers.get("host", "")) not in self._hosts:
            return ServiceProblem("host_unknown")
        return None


def _head_bytes(scope: Scope) -> int:
    """What the first line and the headers take, without what stands between them [byte]."""
    address = len(scope.get("raw_path") or b"") + len(scope["query_string"])
    return address + sum(len(name) + len(value) for name, value in scope["headers"])


def _host_of(text: str) -> str:
    """The host of a Host header, without its port."""
    name = text.strip().lower()
    if name.startswith("["):
        return name.partition("]")[0] + "]"
    return name.partition(":")[0]
