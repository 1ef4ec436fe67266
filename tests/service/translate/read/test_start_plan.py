"""A plan to begin from: read whole, left out where it is of something else, never made worse."""

import copy
import json

import pytest

from service.errors import RequestFaults
from service.jobs import child
from service.jobs.child_process import SILENT, JobLimits
from service.translate.read.requests import read_plan_request
from service.translate.read.start_plan import read_start_plan
from service.translate.write.plan import write_plan
from solver.outcome import NoPlanInTime, SolveRecord
from tests.service.one_night_out import PLAN, REQUEST
from tests.service.wire import wire

PLAN_ID = "plan_01m894y1x3y07966fb6kk0wj7j"


def _with(start: dict[str, object]) -> dict[str, object]:
    return copy.deepcopy(REQUEST) | {"options": {"start_plan": start}}


@pytest.fixture
def answered() -> dict[str, object]:
    """The plan as an answer has it."""
    return wire(write_plan(read_plan_request(REQUEST), PLAN))


def test_the_plan_of_an_answer_is_one_to_begin_from(answered):
    """Trips, stock and flights come through with every unit and its mass."""
    start = read_plan_request(_with({"plan": answered})).start
    assert start is not None
    assert (start.trips, start.stock) == (PLAN.trips, PLAN.stock)
    assert read_start_plan.__doc__


def test_an_id_alone_and_a_plan_of_other_things_are_none(answered):
    """Nothing is begun from them, and the request is in order."""
    assert read_plan_request(_with({"plan_id": PLAN_ID})).start is None
    answered["trips"][0]["loads"][0]["pack"][0]["unit_id"] = "all/nothing-here"
    assert read_plan_request(_with({"plan": answered})).start is None
    assert read_plan_request(REQUEST).start is None


def test_neither_id_nor_plan_is_a_fault():
    """A plan that is not there cannot be begun from."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(_with({}))
    assert [fault.pointer for fault in caught.value.faults] == ["/options/start_plan"]


def test_a_search_without_a_result_answers_with_the_plan_it_began_from(answered, monkeypatch):
    """However little time a solve has, its peak is never higher than that of the plan named."""
    nothing = NoPlanInTime(None, SolveRecord("none", 0, 0, ()))
    monkeypatch.setattr("solver.pipeline.model.solve", lambda *_, **__: nothing)
    for start, outcome in (
        ({"plan": answered}, "solved"),
        ({"plan_id": PLAN_ID}, "no_plan_in_time"),
    ):
        request = json.dumps(_with(start)).encode()
        told = json.loads(child.solve_document(request, JobLimits(20.0, 0), SILENT))
        assert told["outcome"] == outcome
        if outcome == "solved":
            assert told["plan"]["trips"] == answered["trips"]
