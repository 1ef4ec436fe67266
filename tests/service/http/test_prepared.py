"""Refusals made beforehand say all that those do that are made on demand."""

import asyncio

import pytest
from starlette.types import Message

from service.http.prepared import PreparedRefusal
from service.http.watch import RequestCounts


def refused(*headers: tuple[bytes, bytes]) -> tuple[dict[bytes, bytes], bytes, RequestCounts]:
    """The headers and the body of a refusal of a request, and what was counted."""
    counts = RequestCounts()
    sent: list[Message] = []

    async def send(message: Message) -> None:
        sent.append(message)

    refusal = PreparedRefusal("queue_full", again_seconds=7, counts=counts)
    asyncio.run(refusal({"type": "http", "headers": list(headers)}, send))
    start, body = sent
    assert start["status"] == 503
    return dict(start["headers"]), body["body"], counts


def test_a_prepared_refusal_is_a_problem_document_with_the_headers_of_every_answer():
    """It names its code and its length, says when to come again, and is counted."""
    headers, body, counts = refused((b"content-length", b"12"))
    assert headers[b"content-type"] == b"application/problem+json"
    assert headers[b"content-length"] == str(len(body)).encode()
    assert headers[b"retry-after"] == b"7"
    assert headers[b"cache-control"] == b"no-store"
    assert headers[b"x-content-type-options"] == b"nosniff"
    assert b'"code":"queue_full"' in body
    assert 'haulwright_http_refusals_total{code="queue_full"} 1' in counts.lines()
    assert 'haulwright_http_answers_total{method="POST",status="503"} 1' in counts.lines()


@pytest.mark.parametrize(("given", "kept"), [(b"booking-7", True), (b"two words", False)])
def test_a_prepared_refusal_has_the_id_of_its_request(given, kept):
    """An id that was sent comes back where it is one; otherwise the request gets a new one."""
    headers, _, _ = refused((b"x-request-id", given))
    assert (headers[b"x-request-id"] == given) is kept
    assert len(headers[b"x-request-id"]) > 8 or kept


def test_two_requests_without_an_id_get_two():
    """The id is not made beforehand."""
    assert refused()[0][b"x-request-id"] != refused()[0][b"x-request-id"]
