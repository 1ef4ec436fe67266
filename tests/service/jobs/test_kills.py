"""A service that is killed, stopped or frozen at a bad moment loses nothing that it accepted."""

import os
import random
import signal
import socket
import time
from collections.abc import Iterator

import httpx
import pytest

from tests.service.processes import (
    CALLER,
    RunningService,
    free_port,
    has_its_request,
    parent_of,
    solving_under,
    the_only_solve,
    until,
)

LEASE_SECONDS = 1


@pytest.fixture(scope="module")
def only_service(tmp_path_factory) -> Iterator[RunningService]:
    """A service with short leases that the tests of this module kill and start again in turn."""
    tmp_path = tmp_path_factory.mktemp("service")
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(tmp_path / "plans.sqlite3"),
            "HAULWRIGHT_LEASE_SECONDS": str(LEASE_SECONDS),
            "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
        },
        log=tmp_path / "service.log",
    )
    yield running
    running.process.kill()
    running.process.wait()


@pytest.fixture
def service(only_service) -> RunningService:
    """The service, running, whatever the test before did to it."""
    if only_service.process is None or only_service.process.poll() is not None:
        only_service.start()
    return only_service


def running_child(service: RunningService) -> int:
    """The process of the one solve that is running."""
    return the_only_solve(service.process.pid)


def list_plans(service: RunningService) -> list[str]:
    """The names of all plans, page by page."""
    plan_ids, query = [], {"limit": 10}
    while True:
        page = CALLER.get(f"{service.url}/v1/plans", params=query).json()
        plan_ids += [plan["plan_id"] for plan in page["plans"]]
        if page["next_cursor"] is None:
            return plan_ids
        query["cursor"] = page["next_cursor"]


def test_a_killed_service_leaves_no_child_and_loses_no_plan(service):
    """After SIGKILL no solve lives on, and the next start finishes the running and the waiting."""
    plan_ids = [service.ask(order="sleep", seconds=0.7) for _ in range(4)]
    children: list[int] = []

    def are_two() -> bool:
        children[:] = solving_under(service.process.pid)
        return len(children) == 2 and all(map(has_its_request, children))

    until(are_two)
    service.end(signal.SIGKILL)
    until(lambda: not any(map(parent_of, children)), seconds=2)
    service.start()
    plans = [service.finished(plan_id) for plan_id in plan_ids]
    assert [plan["state"] for plan in plans] == ["done"] * 4
    assert sorted(plan["attempt"] for plan in plans) == [1, 1, 2, 2]


def test_random_kills_under_load_lose_and_double_nothing(service):
    """Through two SIGKILLs while requests come in, each plan answered with 202 ends as done."""
    chance = random.Random(4)
    listed_before = list_plans(service)
    accepted = []
    for _ in range(2):
        accepted += [service.ask(order="sleep", seconds=0.02) for _ in range(chance.randint(5, 25))]
        service.end(signal.SIGKILL)
        service.start()
    for plan_id in accepted:
        assert service.finished(plan_id)["state"] == "done"
    assert list_plans(service) == accepted[::-1] + listed_before


def test_sigterm_hands_back_at_once(service):
    """On SIGTERM the service ends within two seconds, with no attempt of its plans counted."""
    plan_id = service.ask(order="sleep", seconds=2)
    running_child(service)
    assert service.end(signal.SIGTERM) < 2
    service.start()
    plan = service.finished(plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 1)


def test_a_frozen_service_comes_back_and_is_refused(service, tmp_path):
    """A service stopped beyond its lease, whose plan another one has taken, writes nothing."""
    plan_id = service.ask(order="sleep", seconds=1.5)
    running_child(service)
    os.kill(service.process.pid, signal.SIGSTOP)
    other = RunningService(
        environment={**service.environment, "HAULWRIGHT_PORT": str(free_port())},
        log=tmp_path / "other.log",
    )
    other.start()
    try:
        until(lambda: other.read(plan_id)["attempt"] == 2)
        os.kill(service.process.pid, signal.SIGCONT)
        plan = other.finished(plan_id)
        assert (plan["state"], plan["attempt"]) == ("done", 2)
        assert solving_under(service.process.pid) == []
        assert "lease lost" in service.log.read_text(encoding="utf-8")
    finally:
        other.end(signal.SIGTERM)


def test_a_large_body_is_refused_early_over_a_real_connection(service):
    """A body of 10 MB, and one nested 100,000 deep, is answered with 4xx in under 100 ms."""
    large = b"[" * 10_000_000
    deep = b"[" * 100_000
    with httpx.Client() as caller:
        caller.get(f"{service.url}/healthz")
        for body, status in ((large, 413), (deep, 400)):
            taken_seconds = []
            for _ in range(5):
                begin = time.monotonic()
                answer = caller.post(
                    f"{service.url}/v1/plans",
                    content=body,
                    headers={"Content-Type": "application/json"},
                )
                taken_seconds.append(time.monotonic() - begin)
                assert answer.status_code == status
            # The least of five is what the service takes; more is other work on the machine.
            assert min(taken_seconds) < 0.1


def test_a_declared_length_over_the_limit_is_refused_before_the_body(service):
    """A caller that announces 10 MB and sends none of it is answered with 413 at once."""
    port = int(service.environment["HAULWRIGHT_PORT"])
    head = (
        b"POST /v1/plans HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
        b"Content-Length: 10000000\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", port), timeout=5) as connection:
        connection.sendall(head)
        assert connection.recv(4096).startswith(b"HTTP/1.1 413 ")
