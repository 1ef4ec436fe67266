"""The trips of a former plan that a request names by its id."""

import json

from service.errors import Fault, RequestFaults
from service.storage.plan_ids import is_plan_id
from service.wiring import Wiring

_POINTER = "/options/near_plan/plan_id"


def with_near_trips(wiring: Wiring, document: dict[str, object]) -> dict[str, object]:
    """The request with the trips of the plan that it names, so that it says all by itself.

    A request that names none, or gives trips itself, stays as it is. Raises RequestFaults where
    there is no such plan, or its outcome has no trips.
    """
    options = document.get("options")
    near = options.get("near_plan") if isinstance(options, dict) else None
    plan_id = near.get("plan_id") if isinstance(near, dict) else None
    if (
        not isinstance(options, dict)
        or not isinstance(near, dict)
        or not isinstance(plan_id, str)
        or near.get("trips") is not None
    ):
        return document
    trips = _trips_of(wiring, plan_id)
    return document | {"options": options | {"near_plan": near | {"trips": trips}}}


def _trips_of(wiring: Wiring, plan_id: str) -> object:
    plan = None
    if is_plan_id(plan_id):
        plan = wiring.store.read(tenant_id=wiring.tenant_id, plan_id=plan_id)
    if plan is None:
        raise RequestFaults((Fault(_POINTER, "unknown_id", "There is no plan with this id."),))
    outcome = {} if plan.outcome_document is None else json.loads(plan.outcome_document)
    if outcome.get("outcome") != "solved":
        raise RequestFaults(
            (Fault(_POINTER, "no_trips", "This plan is not solved, so it has no trips."),)
        )
    trips: object = outcome["plan"]["trips"]
    return trips
