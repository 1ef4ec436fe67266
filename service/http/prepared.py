"""Refusals made beforehand, for requests that nobody has to read."""

from starlette.datastructures import Headers
from starlette.types import Message, Scope, Send

from service.errors import ServiceProblem
from service.http.problem_answers import problem_answer
from service.http.representations import add_common_headers
from service.http.watch import RequestCounts, request_id_of

LARGEST_UNREAD_BYTES = 256 * 1024
"""A larger body of a refused request is not read; its connection is closed [byte]."""


class PreparedRefusal:
    """One refusal of POST requests: it is counted, and has the headers of every answer.

    The connection stays open where the body is small.
    """

    def __init__(self, code: str, *, again_seconds: int, counts: RequestCounts) -> None:
        answer = problem_answer(ServiceProblem(code, headers={"Retry-After": str(again_seconds)}))
        add_common_headers(answer.headers, answer.status_code, "POST")
        self._code = code
        self._counts = counts
        self._status = answer.status_code
        self._headers = tuple(answer.raw_headers)
        self._body: Message = {"type": "http.response.body", "body": bytes(answer.body)}

    async def __call__(self, scope: Scope, send: Send) -> None:
        """Refuse one request."""
        asked = Headers(scope=scope)
        headers = [*self._headers, (b"x-request-id", request_id_of(asked).encode())]
        if _is_large(asked):
            headers.append((b"connection", b"close"))
        self._counts.note("POST", self._status, 0.0, self._code)
        await send({"type": "http.response.start", "status": self._status, "headers": headers})
        await send(self._body)


def _is_large(asked: Headers) -> bool:
    """Whether the body that comes is larger than is worth reading, or of unknown size."""
    length = asked.get("content-length", "")
    return not (length.isdigit() and len(length) < 10 and int(length) <= LARGEST_UNREAD_BYTES)
