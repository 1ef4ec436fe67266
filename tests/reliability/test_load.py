"""The tool that measures load tells the truth, and the service loses nothing under it."""

import asyncio
import json
import math
import signal
import time

import pytest

from api_schema.plan_request import PlanRequest
from service.translation import TRANSLATION
from tests.reliability.load import Report, control, grown, lost, service, unfair
from tests.reliability.open_loop import Caller, Heard, Request
from tests.service.processes import free_port


async def stubborn(port: int, pause: float):
    """A server that stands still once, for so long [s], when it has heard ten requests."""
    heard = 0

    async def answer(reader, writer) -> None:
        nonlocal heard
        while head := await reader.readuntil(b"\r\n\r\n"):
            heard += 1
            if heard == 10:
                time.sleep(pause)  # noqa: ASYNC251 - it stands still
            assert head.startswith(b"GET /x HTTP/1.1")
            writer.write(b"HTTP/1.1 200 OK\r\nContent-Length: 2\r\n\r\nok")

    async def quietly(reader, writer) -> None:
        try:
            await answer(reader, writer)
        except asyncio.IncompleteReadError:
            writer.close()

    return await asyncio.start_server(quietly, "127.0.0.1", port)


def test_a_service_that_stands_still_is_charged_for_all_that_was_due():
    """Of a hundred requests a second, those due within half a second of standing still are late."""

    async def try_it() -> Heard:
        port = free_port()
        server = await stubborn(port, 0.5)
        caller = Caller(port)
        heard = await caller.flood(Request("GET", "/x"), a_second=100, seconds=1)
        await caller.close()
        await asyncio.sleep(0.05)
        server.close()
        await server.wait_closed()
        return heard

    heard = asyncio.run(try_it())
    assert heard.counts() == {200: 100}
    assert sum(one > 0.1 for one in heard.latencies[200]) > 30
    assert heard.ms(1) > 450


def test_what_nobody_answers_is_counted():
    """A port without a service gives status 0, and a refusal without Retry-After is a miss."""
    heard = asyncio.run(Caller(free_port()).flood(Request("GET", "/x"), a_second=20, seconds=0.2))
    assert heard.counts() == {0: 4}
    heard.note(503, 0.1, retry_after=False)
    report = Report()
    report.say("nothing", heard)
    assert report.missed
    assert math.isnan(heard.ms(0.5, 200))


@pytest.mark.parametrize(("refused", "misses"), [(0, False), (1, True), (9, True)])
def test_a_steady_load_of_which_some_is_refused_is_no_promise_kept(refused, misses):
    """Whoever refuses nine of ten at once has a fine p99 of the tenth, and is told so."""
    heard = Heard()
    for number in range(10):
        heard.note(503 if number < refused else 202, 0.001, retry_after=True)
    report = Report()
    report.say("steady", heard, most_ms=50)
    assert report.missed == []
    report.need_all("steady", heard)
    assert bool(report.missed) is misses


@pytest.mark.parametrize(
    ("name", "size"), [("independent-three", 25_000), ("guided-twelve", 110_000)]
)
def test_a_grown_request_is_in_order(name, size):
    """It has the size that is asked for, and the service finds no fault in it."""
    body = grown(name, size)
    assert size <= len(body) < size + 400
    PlanRequest.model_validate_json(body)
    TRANSLATION.read_plan_request(json.loads(body))


@pytest.mark.slow
def test_nothing_is_lost_under_load(tmp_path):
    """Far more than the service can take is answered with 202 or 503, and each 202 is stored."""
    running = service(tmp_path, "tests.service.serve", HAULWRIGHT_QUEUE_LIMIT="60")
    try:
        report = Report()

        async def flood() -> Heard:
            caller = Caller(int(running.environment["HAULWRIGHT_PORT"]))
            body = json.dumps({"order": "sleep", "seconds": 30, "x": "y" * 25_000}).encode()
            heard = await caller.flood(Request("POST", "/v1/plans", body), a_second=60, seconds=2)
            await caller.close()
            return heard

        heard = asyncio.run(flood())
        report.say("flood", heard)
        assert heard.counts().keys() == {202, 503}
        assert heard.without_retry == 0
        assert 60 <= report.accepted < 120
        assert lost(running, report, 0) == 0
        assert lost(running, report, 1) == 1
    finally:
        running.end(signal.SIGKILL)


@pytest.mark.slow
def test_a_loop_that_stands_still_is_caught(tmp_path):
    """The planted fault misses the promise that it should miss."""
    running = service(tmp_path, "tests.reliability.planted", PLANTED_FAULT="stands_still")
    try:
        report = Report()
        asyncio.run(control(running, report))
        assert "20 a second while the loop stands still now and then: p99" in report.missed
    finally:
        running.end(signal.SIGKILL)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("module", "misses"), [("tests.service.serve", False), ("tests.reliability.planted", True)]
)
def test_beside_a_flood_somebody_else_is_let_in(tmp_path, module, misses):
    """Nobody of another address is refused; where callers are not told apart, some are."""
    running = service(tmp_path, module, PLANTED_FAULT="one_line")
    try:
        report = Report()
        asyncio.run(unfair(running, report))
        assert ("another caller beside a flood" in report.missed) is misses
    finally:
        running.end(signal.SIGKILL)
