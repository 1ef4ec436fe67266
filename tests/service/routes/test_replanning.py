"""The plan that a short code names, and what the description shows as an example."""

import json
from types import SimpleNamespace

import pytest

from api_schema.replan import ReplanRequest
from service.errors import ServiceProblem
from service.routes import messages, replans
from service.routes.replanning import plan_of_code, replan_documents


def _wiring(plans, replaced=()):
    """A wiring whose lineage knows some plans of one code; `replaced` hold no more."""
    lineage = SimpleNamespace(
        with_code=lambda **_: tuple(plans),
        superseded_by=lambda *, tenant_id, plan_id: "newer" if plan_id in replaced else None,
    )
    store = SimpleNamespace(read=lambda **_: SimpleNamespace())
    return SimpleNamespace(lineage=lineage, store=store, tenant_id="default")


A, B = (f"plan_{letter * 26}" for letter in "ab")


def test_a_code_names_the_plan_that_holds():
    """Of two with one code, the one that no other has replaced."""
    assert plan_of_code(_wiring([A]), "AAAA") == A
    assert plan_of_code(_wiring([A, B], replaced=[A]), "AAAA") == B


@pytest.mark.parametrize(("plans", "replaced"), [((), ()), ((A,), (A,)), ((A, B), ())])
def test_nothing_is_guessed(plans, replaced):
    """No plan, an old plan, or two that hold: the message is not answered."""
    with pytest.raises(ServiceProblem) as refused:
        plan_of_code(_wiring(plans, replaced), "AAAA")
    assert refused.value.code == "not_found"


def test_the_state_and_the_rest_of_a_stored_plan():
    """A plan from the start has neither; a re-plan that is not done has its state."""
    first = SimpleNamespace(request_document=b"{}", outcome_document=b'{"rest": null}')
    assert replan_documents(first) == (None, None)
    waiting = {"request": {}, "state": {"at": 1}}
    plan = SimpleNamespace(request_document=json.dumps(waiting).encode(), outcome_document=None)
    assert replan_documents(plan) == ({"at": 1}, None)


def test_the_example_of_the_description_is_a_state():
    """What the description shows can be sent, and both routers have their addresses."""
    assert ReplanRequest.model_validate(replans.EXAMPLE_STATE).wait_nights == 1
    paths = {route.path for router in (replans.router, messages.router) for route in router.routes}
    assert "/v1/plans/{plan_id}/replans" in paths
    assert "/v1/messages" in paths
