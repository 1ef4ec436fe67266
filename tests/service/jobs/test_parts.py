"""Who waits for a plan, what a failure is stored as, and the way to a job."""

import asyncio
import json
import socket
import threading
import time

import pytest

from api_schema.plan_answer import FailedAnswer
from service.jobs.child import solve_document
from service.jobs.completions import Completions
from service.jobs.engine import LeaseKeeper
from service.jobs.failures import FAILURES, failed_outcome
from service.jobs.fork_server import find_job, serve
from service.storage.leases import Claim


def waited(completions: Completions, announced: str) -> float:
    """How long somebody waits for plan "a" while another thread announces one [s]."""

    async def wait() -> float:
        waiter = completions.expect("a")
        begin = time.monotonic()
        threading.Timer(0.05, completions.announce, [announced]).start()
        await waiter.wait(seconds=0.5)
        completions.forget(waiter)
        return time.monotonic() - begin

    return asyncio.run(wait())


def test_who_waits_is_told_of_their_plan_only():
    """The plan waited for ends the wait at once, another one does not."""
    completions = Completions()
    assert waited(completions, "a") < 0.4
    assert waited(completions, "b") >= 0.5


def test_nobody_waits_once_the_service_stops():
    """After the end everybody is let go, also who comes later."""
    completions = Completions()
    completions.close()
    assert waited(completions, "b") < 0.4


@pytest.mark.parametrize("code", FAILURES)
def test_a_failure_is_an_outcome_in_order(code):
    """Each code has its detail, and what names the request is repeated."""
    request = json.dumps({"reference": "booking 1", "start_date": "2028-02-28"}).encode()
    answer = FailedAnswer.model_validate_json(failed_outcome(code, request_document=request))
    assert (answer.code, answer.detail, answer.title) == (code, FAILURES[code], None)
    assert str(answer.start_date) == "2028-02-28"


def test_a_job_is_found_by_its_path():
    """The path that the service runs with leads to the function that solves."""
    assert find_job("service.jobs.child:solve_document") is solve_document


def test_the_fork_server_ends_with_its_socket():
    """Once the other end is closed, it serves no more."""
    ours, theirs = socket.socketpair()
    ours.close()
    with theirs:
        assert serve(theirs, solve_document) is None


def test_progress_waits_for_the_next_renewal():
    """A renewal takes the newest progress along, and only once."""

    class Queue:
        """Notes what is renewed."""

        def __init__(self) -> None:
            self.told: list[bytes | None] = []

        def renew(self, _claim: Claim, *, progress_document: bytes | None) -> None:
            """Note the progress."""
            self.told.append(progress_document)

    queue = Queue()
    early = LeaseKeeper(queue, None, seconds=60)
    early(b"1")
    assert queue.told == []
    keeper = LeaseKeeper(queue, None, seconds=0)
    keeper(b"1")
    keeper(None)
    assert queue.told == [b"1", None]
