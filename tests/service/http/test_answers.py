"""Answers, bodies and the description of routes, each by itself."""

import asyncio
import gzip
import inspect
import json

import pytest
from fastapi import Request
from fastapi.dependencies.utils import get_dependant

from api_schema.operation import HealthAnswer
from service.access import require_key
from service.app import ROUTES
from service.errors import PROBLEMS, ServiceProblem
from service.http.answers import EVERY_ROUTE, json_answer, problems, takes_json, written_answer
from service.http.file_body import received_file, takes_file
from service.http.openapi import openapi_document
from service.http.problem_answers import PROBLEM_JSON
from service.http.query import known_query_only
from service.http.request_body import read_json_body
from service.version import VERSION


def request(*parts: bytes, **headers: str) -> Request:
    """A request whose body comes in these parts."""
    left = [{"type": "http.request", "body": part, "more_body": True} for part in parts]
    left.append({"type": "http.request", "body": b"", "more_body": False})

    async def receive() -> dict:
        return left.pop(0)

    listed = [(name.replace("_", "-").encode(), text.encode()) for name, text in headers.items()]
    return Request({"type": "http", "method": "POST", "headers": listed}, receive)


def read(asked: Request, limit_bytes: int = 10) -> bytes:
    """The body of a request."""
    return asyncio.run(read_json_body(asked, limit_bytes=limit_bytes, limit_seconds=1))


def test_an_answer_is_its_model_as_json():
    """The body is the model's JSON in UTF-8, with the status and headers asked for."""
    answer = json_answer(HealthAnswer(status="ok", version="é"), status=201, headers={"X-A": "b"})
    assert json.loads(answer.body) == {"status": "ok", "version": "é"}
    assert (answer.status_code, answer.headers["x-a"]) == (201, "b")
    assert answer.headers["content-type"] == "application/json"
    assert written_answer(answer.body).body == answer.body


def test_a_route_documents_its_problems_by_status():
    """Each status lists its codes, and those of every route are always there."""
    documented = problems("not_found", "queue_full")
    assert set(documented) == {404, *(PROBLEMS[code].status for code in EVERY_ROUTE)}
    assert "queue_full" in documented[503]["description"]
    assert all(set(answer["content"]) == {PROBLEM_JSON} for answer in documented.values())


def test_a_body_that_a_route_reads_itself_is_documented():
    """The schema and the examples of a body stand under its media type."""
    body = takes_json("PlanRequest", {"one": {"a": 1}})["requestBody"]["content"]
    assert body["application/json"]["examples"] == {"one": {"value": {"a": 1}}}
    assert body["application/json"]["schema"]["$ref"].endswith("/PlanRequest")


def test_the_description_has_the_version_and_no_shape_that_is_never_sent():
    """The framework's own shape of faults is left out; bodies read by routes are in."""
    document = openapi_document(ROUTES)
    schemas = document["components"]["schemas"]
    assert document["info"]["version"] == VERSION
    assert "HTTPValidationError" not in schemas
    assert {"PlanRequest", "PlanCheckRequest", "ProblemDetails"} <= set(schemas)


def test_a_body_is_put_together_from_its_parts():
    """Parts up to the limit are read as one."""
    assert read(request(b"[1,", b"2]", content_type="application/json")) == b"[1,2]"


@pytest.mark.parametrize(
    ("parts", "headers", "code"),
    [
        ((b"0" * 11,), {"content_type": "application/json"}, "body_too_large"),
        (
            (b"0",),
            {"content_type": "application/json", "content_length": "11"},
            "body_too_large",
        ),
        (
            (b"0",),
            {"content_type": "application/json", "content_length": "x"},
            "malformed_request",
        ),
        ((b"0",), {"content_type": "text/plain"}, "unsupported_media_type"),
        (
            (b"0",),
            {"content_type": "application/json", "content_encoding": "br"},
            "unsupported_media_type",
        ),
    ],
)
def test_a_body_that_is_not_taken_is_refused(parts, headers, code):
    """Too long as read or as declared, and another type or encoding, are told apart."""
    with pytest.raises(ServiceProblem) as raised:
        read(request(*parts, **headers))
    assert raised.value.code == code


@pytest.mark.parametrize("coding", ["gzip", "x-gzip", "X-GZip"])
def test_a_body_of_several_members_of_gzip_is_read_as_one(coding):
    """RFC 1952, 2.2 allows members one after another; RFC 9110, 8.4.1.3 has a second name."""
    headers = {"content_type": "application/json", "content_encoding": coding}
    packed = b"".join(map(gzip.compress, (b"[1,", b"2", b"]")))
    assert read(request(packed, **headers), limit_bytes=100) == b"[1,2]"
    for bad in (packed[:-1], packed + b"x", packed + b"\x1f", gzip.compress(b"") * 33, b""):
        with pytest.raises(ServiceProblem, match="malformed_request"):
            read(request(bad, **headers), limit_bytes=1000)
    with pytest.raises(ServiceProblem, match="body_too_large"):
        read(request(gzip.compress(b"0" * 60) * 2, **headers), limit_bytes=100)


def test_others_have_their_turn_while_a_body_is_unpacked():
    """Eight megabytes are unpacked in parts, between which the loop goes on."""
    turns = 0

    async def count() -> None:
        nonlocal turns
        while True:
            await asyncio.sleep(0)
            turns += 1

    async def unpack() -> tuple[int, int]:
        counting = asyncio.create_task(count())
        asked = request(packed, content_type="application/json", content_encoding="gzip")
        body = await read_json_body(asked, limit_bytes=size, limit_seconds=10)
        counting.cancel()
        return len(body), turns

    size = 8 * 1024 * 1024
    packed = gzip.compress(b" " * size)
    assert asyncio.run(unpack())[0] == size
    assert turns >= 31


def test_a_body_that_pauses_too_long_is_refused():
    """A body that does not arrive in time is refused, and the connection is given up."""

    async def never() -> dict:
        await asyncio.sleep(60)
        return {}

    headers = [(b"content-type", b"application/json")]
    slow = Request({"type": "http", "method": "POST", "headers": headers}, never)
    with pytest.raises(ServiceProblem) as raised:
        asyncio.run(read_json_body(slow, limit_bytes=10, limit_seconds=0.05))
    assert raised.value.code == "body_too_slow"
    assert raised.value.headers == {"Connection": "close"}


def test_a_file_goes_to_disk_and_is_gone_afterwards():
    """The parts of a body are in one file while it is read, and nothing is left of it."""

    async def receive_it() -> tuple[bytes, bool]:
        asked = request(b"ab", b"cd", content_type="text/csv; header=present")
        async with received_file(
            asked, media_types=("text/csv",), limit_bytes=4, limit_seconds=1
        ) as path:
            content = path.read_bytes()
        return content, path.exists()

    assert asyncio.run(receive_it()) == (b"abcd", False)
    assert set(takes_file(("text/csv",), "a")["requestBody"]["content"]) == {"text/csv"}


def test_what_a_new_plan_depends_on_takes_no_thread():
    """Each dependency of that route is async: a change of threads costs more than all of them."""
    (route,) = (one for one in ROUTES if one.path == "/v1/plans" and "POST" in one.methods)
    waiting = [*route.dependant.dependencies, get_dependant(path="/", call=require_key)]
    calls = [known_query_only]
    while waiting:
        one = waiting.pop()
        calls.append(one.call)
        waiting += one.dependencies
    assert len(calls) == 5
    assert [call.__qualname__ for call in calls if not inspect.iscoroutinefunction(call)] == []
