"""Who waits for a plan, what a failure is stored as, and the way to a job."""

import asyncio
import gc
import json
import socket
import time
from dataclasses import replace

import pytest

from api_schema.plan_answer import FailedAnswer
from service.errors import ServiceProblem
from service.jobs import lease_keeper
from service.jobs import lookout as lookout_module
from service.jobs.child import solve_document
from service.jobs.completions import Completions
from service.jobs.failures import FAILURES, failed_outcome
from service.jobs.fork_server import LoadedJobs, find_job, serve
from service.jobs.lease_keeper import CancelWishedError, LeaseKeeper
from service.jobs.lookout import Rescuer
from service.jobs.supervisor import Answered, Broken, NotStarted
from service.jobs.work import PlanWork, WorkSettings
from service.storage.leases import Claim, LeaseLostError
from tests.service.processes import meanwhile

CLAIM = Claim("plan", 1, 0, 1, b"{}", "", 1.0)


def waited(completions: Completions, announced: str) -> float:
    """How long somebody waits for plan "a" while another thread announces one [s]."""

    async def wait() -> float:
        waiter = completions.expect("a")
        begin = time.monotonic()
        with meanwhile(0.05, completions.announce, announced):
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
        assert serve(theirs, lambda _: solve_document) is None


def test_a_further_job_is_loaded_when_it_is_first_asked_for():
    """A path that leads nowhere harms nobody who does not ask for it."""
    jobs = LoadedJobs(["service.jobs.child:solve_document", "service.jobs.nothing:at_all"])
    assert jobs(0) is solve_document
    with pytest.raises(ModuleNotFoundError):
        jobs(1)
    assert gc.isenabled()


class Queue:
    """Notes what is renewed and told."""

    def __init__(self) -> None:
        self.noted: list[object] = []

    def renew(self, _claim: Claim) -> None:
        """Note a renewal."""
        self.noted.append("renewed")

    def tell(self, _claim: Claim, progress: bytes) -> None:
        """Note the progress."""
        self.noted.append(progress)


class Wisher:
    """Wishes for one thing."""

    def __init__(self, wish: str | None) -> None:
        self.wish = wish

    def of(self, _claim: Claim) -> str | None:
        """The wish."""
        return self.wish


def test_progress_is_stored_at_once_and_renews():
    """Progress is stored when it comes; without it, a lease is renewed when it is time."""
    queue = Queue()
    keeper = LeaseKeeper(queue, Wisher(None), None, renew_seconds=60)
    assert not keeper(None)
    keeper(b"1")
    keeper(None)
    assert queue.noted == [b"1"]
    LeaseKeeper(queue, Wisher(None), None, renew_seconds=0)(None)
    assert queue.noted == [b"1", "renewed"]


def test_a_wish_is_heard_while_a_child_works(monkeypatch):
    """A wish to finish is passed on, and a wish to cancel ends the child."""
    monkeypatch.setattr(lease_keeper, "LOOK_SECONDS", 0)
    assert LeaseKeeper(Queue(), Wisher("finish"), CLAIM, renew_seconds=60)(None)
    with pytest.raises(CancelWishedError):
        LeaseKeeper(Queue(), Wisher("cancel"), CLAIM, renew_seconds=60)(None)


class Failing:
    """A supervisor whose run has one end, and a queue that fails twice before it stores."""

    def __init__(self, end) -> None:
        self.end = end
        self.tries = 0
        self.stored: list[str] = []

    def run(self, _document, **_):
        """End as told."""
        return self.end

    def finish(self, _claim, *, state, outcome_kind, outcome) -> None:
        """Fail twice."""
        self.tries += 1
        if self.tries < 3:
            raise ServiceProblem("storage_unavailable")
        self.stored.append(state)

    def hand_back(self, _claim, *, crashed) -> None:
        """Note it."""
        self.stored.append("crashed" if crashed else "handed back")


def worked(end, claim: Claim) -> Failing:
    """What was stored of a solve that ended like this."""
    fake = Failing(end)
    settings = WorkSettings(renew_seconds=60, outcome_kind=lambda _: "solved")
    work = PlanWork(fake, Wisher(None), fake, settings, on_finished=lambda _: None)
    work.solve(claim)
    return fake


def test_a_result_that_cannot_be_stored_is_kept_and_not_solved_again():
    """While the storage fails, the same result is offered again until it is stored."""
    assert worked(Answered(b"{}"), CLAIM).stored == ["done"]


def test_the_third_crash_of_a_plan_is_its_last():
    """A crash is held against the plan: twice it is tried again, then it has failed."""
    crash = Broken("solver_crashed", worth_retrying=True)
    assert worked(crash, replace(CLAIM, crashes=1)).stored == ["crashed"]
    assert worked(crash, replace(CLAIM, crashes=2)).stored == ["failed"]


def test_a_child_that_does_not_start_costs_the_plan_nothing():
    """A plan whose child did not start is handed back uncounted, however often."""
    assert worked(NotStarted(), replace(CLAIM, crashes=2)).stored == ["handed back"]


class Deleted(Failing):
    """A plan whose caller cancelled it and then deleted it: nobody holds it any more."""

    def run(self, _document, **_):
        """Hear of the wish."""
        raise CancelWishedError

    def cancelled(self, _claim) -> None:
        """Find nothing to close."""
        raise LeaseLostError


def test_a_cancelled_plan_that_is_deleted_meanwhile_is_no_fault():
    """The lease is lost, and whoever waits for the plan hears that it has come to its end."""
    told: list[str] = []
    fake = Deleted(None)
    settings = WorkSettings(renew_seconds=60, outcome_kind=lambda _: "solved")
    PlanWork(fake, Wisher("cancel"), fake, settings, on_finished=told.append).solve(CLAIM)
    assert told == [CLAIM.plan_id]


def test_who_may_rescue_waits_after_a_fault_of_the_storage(monkeypatch):
    """After a fault or a start of the storage, and after it was frozen, it waits for a lease."""

    class Rescues:
        """Counts rescues."""

        def rescue(self, **_) -> list[str]:
            """One plan is closed."""
            return ["plan"]

        def has_lease_too_far(self) -> bool:
            """No clock was set back."""
            return False

        def is_database_new(self) -> bool:
            """Whether its server was just started."""
            return self.is_new

        is_new = False

    monkeypatch.setattr(lookout_module, "_FROZEN_SECONDS", 0.3)
    rescues = Rescues()
    rescuer = Rescuer(rescues, lease_seconds=0.1)
    assert rescuer() == ["plan"]
    rescues.is_new = True
    assert rescuer() == []
    rescues.is_new = False
    rescuer.wait_a_lease()
    assert rescuer() == []
    time.sleep(0.15)
    assert rescuer() == ["plan"]
    time.sleep(0.35)
    assert rescuer() == []
