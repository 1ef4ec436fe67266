"""Storing a re-plan, waiting for it, and what a plan's line says of it."""

import json
from typing import Any

from service.errors import ServiceProblem
from service.jobs.desk_job import REPLAN, read_replan_order
from service.routes.asked_webhook import kept_webhook
from service.routes.plan_documents import find_plan, find_request, find_solved_outcome
from service.storage.idempotency import RequestKey
from service.storage.plans import PlanSummary, StoredPlan
from service.wiring import Wiring


def accept_replan(
    wiring: Wiring, plan_id: str, state: bytes, key: RequestKey | None = None
) -> PlanSummary:
    """Store the re-plan of a solved plan from a state that was counted, as its caller wrote it.

    Raises RequestFaults with every fault of the state, and a problem where the plan is not solved.
    A plan may have several re-plans, of which one holds. One that asks "what if" supersedes nothing
    before it is followed or released.
    """
    question = REPLAN + json.dumps(followed_plan(wiring, plan_id)).encode() + b"\n" + state
    order, document = read_replan_order(wiring.desks.ask(question))
    accepted = wiring.store.accept(
        tenant_id=wiring.tenant_id,
        reference=order.reference,
        solve_seconds=wiring.settings.granted_solve_seconds(order.solve_seconds),
        document=document,
        idempotency_key=key,
        former_plan_id=plan_id,
        what_if=bool(document["state"].get("what_if")),
        webhook_url=kept_webhook(wiring.settings, document["request"], plan_id),
    )
    wiring.engine.wake()
    return accepted


def followed_plan(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """A solved plan as a re-plan needs it: its request, its trips and stock, what was settled."""
    outcome = find_solved_outcome(wiring, plan_id)
    plan = {name: outcome["plan"][name] for name in ("trips", "stock", "flights")}
    if outcome.get("rest") is not None:
        names = ("spent", "let_go", "night_sets", "settled")
        plan["rest"] = {name: outcome["rest"].get(name, []) for name in names}
    return {"request": find_request(wiring, plan_id), "plan": plan, "of_plan": plan_id}


def replan_documents(plan: StoredPlan) -> tuple[dict[str, Any] | None, dict[str, Any] | None]:
    """The state that a plan was made from, and what its outcome says of the rest; None for none."""
    request = json.loads(plan.request_document)
    outcome = {} if plan.outcome_document is None else json.loads(plan.outcome_document)
    return request.get("state"), outcome.get("rest")


def plan_of_code(wiring: Wiring, code: str) -> str:
    """The newest plan that still holds of those with a short code; not_found for none or several.

    Plans of one line have different codes. Two lines with one code are told apart by nothing in a
    message, so that none is guessed.
    """
    found = [
        plan_id
        for plan_id in wiring.lineage.with_code(tenant_id=wiring.tenant_id, code=code)
        if wiring.lineage.superseded_by(tenant_id=wiring.tenant_id, plan_id=plan_id) is None
    ]
    if len(found) != 1:
        words = "No plan has this code, or a newer one has taken its place."
        if found:
            words = f"{len(found)} plans have this code. Ask for the plan_id."
        raise ServiceProblem("not_found", words)
    find_plan(wiring, found[0])
    return found[0]
