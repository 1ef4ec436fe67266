"""Copies of former plans in stored requests: there for the solve, and gone at its end."""

import json

import pytest
from sqlalchemy import update

from service.former_plans import text_without_copies, without_copies
from service.storage.copies import final_request
from service.storage.database import migrate, writing
from service.storage.leases import MOST_ABANDONED
from service.storage.migrations.versions import m0016_former_plans
from service.storage.plans import PlanStore
from service.storage.tables import PlanRow
from service.storage.wishes import Wishes
from tests.service.storage.plans_in_store import FINAL, accept, let_leases_run_out, rescue

NEAR = {"plan_id": "plan_a", "trips": [{"loads": [{"person_id": "özge"}]}], "tolerance": "1 %"}
START = {"plan_id": "plan_b", "plan": {"trips": []}}
ASKED = {"options": {"near_plan": NEAR, "start_plan": START, "seed": 3}, "title": "é"}
LEFT = {
    "options": {
        "near_plan": {"plan_id": "plan_a", "tolerance": "1 %"},
        "start_plan": {"plan_id": "plan_b"},
        "seed": 3,
    },
    "title": "é",
}


def request_of(store: PlanStore, plan_id: str) -> dict:
    """The request document as it is stored."""
    return json.loads(store.read(tenant_id="t", plan_id=plan_id).request_document)


def test_a_final_plan_has_no_copy(store, queue):
    """The worker has the copy, also after a crash; what is stored at the end has the ids."""
    plan_id = accept(store, **ASKED)
    queue.hand_back(queue.claim(), crashed=False)
    claim = queue.claim()
    assert json.loads(claim.request_document) == ASKED == request_of(store, plan_id)
    queue.finish(claim, **FINAL)
    assert request_of(store, plan_id) == LEFT


def test_a_plan_that_is_cancelled_has_no_copy(store, queue, database):
    """Neither one that waited, nor one that ran, nor one whose worker finished too late."""
    wishes = Wishes(database)
    waits = accept(store, **ASKED)
    wishes.cancel(tenant_id="t", plan_id=waits)
    runs = accept(store, **ASKED)
    claim = queue.claim()
    wishes.cancel(tenant_id="t", plan_id=runs)
    assert request_of(store, runs) == ASKED
    queue.cancelled(claim)
    late = accept(store, **ASKED)
    claim = queue.claim()
    wishes.cancel(tenant_id="t", plan_id=late)
    queue.finish(claim, **FINAL)
    assert [request_of(store, plan_id) for plan_id in (waits, runs, late)] == [LEFT] * 3


@pytest.mark.parametrize("wished", [False, True])
def test_a_plan_that_its_workers_abandoned_has_no_copy(store, queue, database, monkeypatch, wished):
    """It keeps the copy as long as it is tried again."""
    assert MOST_ABANDONED > 1
    monkeypatch.setattr("service.storage.leases.MOST_ABANDONED", 1)
    plan_id = accept(store, **ASKED)
    queue.claim()
    if wished:
        Wishes(database).cancel(tenant_id="t", plan_id=plan_id)
    let_leases_run_out(database)
    assert rescue(queue) == [plan_id]
    assert request_of(store, plan_id) == LEFT


@pytest.mark.parametrize(
    "asked",
    [
        {"options": {"near_plan": {"trips": []}, "start_plan": {"plan": {}}}},
        {"options": {"near_plan": {"plan_id": "plan_a"}, "seed": 1}},
        {"options": [], "title": "near_plan"},
        {"title": "start_plan"},
    ],
)
def test_what_the_caller_sent_stays(store, queue, asked):
    """Trips without the id of a plan are the caller's own."""
    plan_id = accept(store, **asked)
    queue.finish(queue.claim(), **FINAL)
    assert request_of(store, plan_id) == asked


def test_only_a_request_with_copies_is_written_anew(database):
    """Another one is left alone, and nothing is said of a deletion."""
    assert without_copies(LEFT) is LEFT
    assert text_without_copies(json.dumps(LEFT).encode()) is None
    with writing(database) as connection:
        assert final_request(connection, json.dumps(LEFT).encode()) == {}
        assert not any("deleted" in str(name) for name in connection.info)
        told = final_request(connection, json.dumps(ASKED).encode())
        assert json.loads(told["request_document"]) == LEFT
        assert any("deleted" in str(name) for name in connection.info)


def test_plans_of_earlier_versions_lose_their_copies(store, queue, database):
    """Final ones and tests of them at once; one that waits keeps what its solve needs."""
    final = accept(store, **ASKED)
    tested = accept(store, stress_test={}, request=ASKED)
    own = accept(store, options={"near_plan": {"trips": [1]}})
    for _ in range(3):
        queue.finish(queue.claim(), **FINAL)
    waits = accept(store, **ASKED)
    before = {"request_document": json.dumps(ASKED, ensure_ascii=False).encode()}
    with writing(database) as connection:
        connection.execute(update(PlanRow).where(PlanRow.plan_id == final).values(before))
    migrate(database, m0016_former_plans.down_revision)
    migrate(database, "head")
    assert request_of(store, final) == LEFT
    assert request_of(store, tested)["request"] == LEFT
    assert request_of(store, own) == {"options": {"near_plan": {"trips": [1]}}}
    assert request_of(store, waits) == ASKED
