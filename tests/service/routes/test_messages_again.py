"""A message that is delivered again, once or by several at once, begins nothing a second time."""

import json
import threading
from concurrent.futures import ThreadPoolExecutor
from types import SimpleNamespace

import pytest

from service.errors import ServiceProblem
from service.jobs.desks import DesksInline
from service.messages.text import Group, Message
from service.routes import messages
from service.settings import Settings
from service.storage.idempotency import BegunWork
from service.storage.leases import PlanQueue
from service.storage.lineage import Lineage
from service.storage.plan_ids import code_of
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.wishes import Wishes
from tests.service.fake_translation import work_at_desk

COPIES = 6
SOLVED = {
    "outcome": "solved",
    "reference": None,
    "plan": {"trips": [], "stock": [], "flights": []},
}


class Service:
    """What a message needs of the service; plans are solved when a test says so."""

    def __init__(self, database):
        self._database = database
        self._queue = PlanQueue(database, lease_ms=60_000)
        self.store = PlanStore(database, queue_limit=99)
        self.lineage = Lineage(database)
        self.wiring = SimpleNamespace(
            tenant_id="t",
            settings=Settings(),
            store=self.store,
            begun=BegunWork(database),
            lineage=self.lineage,
            desks=DesksInline(work_at_desk),
            engine=SimpleNamespace(wake=lambda: None),
        )
        self.plan_id = self.store.accept(
            tenant_id="t", reference=None, solve_seconds=1.0, document={}
        ).plan_id
        self.end(self.plan_id)
        self.message = Message(
            is_answer=False,
            plan_code=code_of(self.plan_id),
            groups=(Group("when", {"day": 2, "moment": "E"}),),
        )

    def end(self, plan_id, state="done", kind="solved"):
        """Let the solve of a plan end."""
        claim = self._queue.claim(plan_id)
        outcome = json.dumps(SOLVED | {"outcome": kind}).encode()
        self._queue.finish(claim, state=state, outcome_kind=kind, outcome=outcome)

    def cancel(self, plan_id):
        """Cancel a plan that waits."""
        assert Wishes(self._database).cancel(tenant_id="t", plan_id=plan_id)

    def release(self, plan_id):
        """Release a plan, so that it holds."""
        ReleaseStore(self._database).release(
            tenant_id="t",
            reference="r",
            plan_id=plan_id,
            released_by="desk",
            key_id=None,
            outcome=b"{}",
        )

    def deliver(self):
        """The re-plan that answers the message, or the code of the refusal."""
        try:
            return messages._begun(self.wiring, self.message)[0].plan_id
        except ServiceProblem as problem:
            return problem.code

    def all_plans(self):
        """The names of all plans, the newest first."""
        listed = self.store.list(tenant_id="t", before_plan_id=None, limit=99)
        return [plan.plan_id for plan in listed]


@pytest.fixture
def service(database, monkeypatch):
    """A service with one solved plan, whose messages all say the same."""
    read = SimpleNamespace(problem=None)
    monkeypatch.setattr(messages, "read_plan_request", lambda _request: read)
    monkeypatch.setattr(messages, "Numbers", lambda _problem: None)
    monkeypatch.setattr(messages, "state_of", lambda _message, _numbers: {"at": {"day": 2}})
    return Service(database)


@pytest.fixture
def all_at_once(service, monkeypatch):
    """What each of several copies gets, of which none is stored before all were looked up."""
    gate = threading.Barrier(COPIES)
    really = messages.accept_replan

    def accept(*told):
        gate.wait(timeout=20)
        return really(*told)

    def deliver():
        monkeypatch.setattr(messages, "accept_replan", accept)
        with ThreadPoolExecutor(COPIES) as pool:
            told = list(pool.map(lambda _: service.deliver(), range(COPIES)))
        monkeypatch.setattr(messages, "accept_replan", really)
        return told

    return deliver


def test_after_an_older_plan_was_released_the_message_is_refused(service):
    """What was released has taken the place of the answer; nothing is begun, by none of many."""
    answer = service.deliver()
    assert service.deliver() == answer
    service.end(answer)
    assert service.deliver() == answer
    service.release(service.plan_id)
    with ThreadPoolExecutor(COPIES) as pool:
        told = list(pool.map(lambda _: service.deliver(), range(COPIES)))
    assert told == ["not_found"] * COPIES
    assert service.all_plans() == [answer, service.plan_id]
    service.release(answer)
    assert service.deliver() == answer


def test_copies_that_come_first_and_together_begin_one_re_plan(service, all_at_once):
    """Everybody is given the same one."""
    told = set(all_at_once())
    assert len(told) == 1
    assert service.all_plans() == [*told, service.plan_id]


@pytest.mark.parametrize("end", ["failed", "cancelled"])
def test_copies_after_a_re_plan_without_an_answer_begin_one_more(service, all_at_once, end):
    """Where the first re-plan failed or was cancelled one takes its place, and then holds."""
    first = service.deliver()
    for _ in range(2):
        if end == "failed":
            service.end(first, "failed", "failed")
        else:
            service.cancel(first)
        told = set(all_at_once())
        assert len(told) == 1
        assert first not in told
        (first,) = told
        assert service.deliver() == first
    service.end(first)
    assert service.deliver() == first
    assert len(service.all_plans()) == 4


@pytest.mark.parametrize("cancelled", [0, 1])
def test_a_copy_that_is_late_by_a_moment_gets_the_answer(service, monkeypatch, cancelled):
    """Between its looks for the key and for the plan another copy began, and was answered."""
    found = []
    really = messages.plan_of_code
    for _ in range(cancelled):
        service.cancel(service.deliver())

    def after_another(wiring, code):
        monkeypatch.setattr(messages, "plan_of_code", really)
        found.append(service.deliver())
        service.end(found[0])
        return really(wiring, code)

    monkeypatch.setattr(messages, "plan_of_code", after_another)
    assert [service.deliver()] == found
    assert len(service.all_plans()) == 2 + cancelled
