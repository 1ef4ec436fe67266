"""Former plans that a request names by their ids: one to stay near to, and one to begin from."""

import json
from typing import Any

from service.errors import Fault, RequestFaults
from service.former_plans import COPIED
from service.storage.plan_ids import is_plan_id
from service.wiring import Wiring

NAMES = (b"near_plan", b"start_plan", b"\\u")
"""What the body of a request holds that may name a former plan, written plainly or not."""

_GONE = "There is no plan with this id. If it was deleted, leave it out."


def with_named_plans(wiring: Wiring, document: dict[str, object]) -> dict[str, object]:
    """The request with what it names of former plans, so that its solve needs nothing else.

    A request that names none, or gives trips and plan itself, stays as it is. Raises RequestFaults
    where there is no such plan, or its outcome has none.
    """
    options = document.get("options")
    if not isinstance(options, dict):
        return document
    found: dict[str, object] = {}
    faults: list[Fault] = []
    for name, part in COPIED:
        named = options.get(name)
        plan_id = named.get("plan_id") if isinstance(named, dict) else None
        if isinstance(named, dict) and isinstance(plan_id, str) and named.get(part) is None:
            plan = _plan_of(wiring, plan_id, f"/options/{name}/plan_id")
            if isinstance(plan, Fault):
                faults.append(plan)
            else:
                found[name] = named | {part: plan["trips"] if part == "trips" else plan}
    if faults:
        raise RequestFaults(tuple(faults))
    return document | {"options": options | found} if found else document


def _plan_of(wiring: Wiring, plan_id: str, pointer: str) -> dict[str, Any] | Fault:
    """The plan of a solved outcome, or why there is none."""
    stored = None
    if is_plan_id(plan_id):
        stored = wiring.store.read(tenant_id=wiring.tenant_id, plan_id=plan_id)
    if stored is None:
        return Fault(pointer, "unknown_id", _GONE)
    outcome = {} if stored.outcome_document is None else json.loads(stored.outcome_document)
    if outcome.get("outcome") != "solved":
        return Fault(pointer, "no_trips", "This plan is not solved, so it has no trips.")
    plan: dict[str, Any] = outcome["plan"]
    return plan
