"""Stored plans as the JSON that callers see."""

import json
from dataclasses import asdict
from datetime import UTC, datetime
from typing import Any

from service.errors import ServiceProblem
from service.storage.plan_ids import is_plan_id
from service.storage.plans import PlanSummary, StoredPlan
from service.wiring import DEFAULT_TENANT, Wiring


def summary_document(summary: PlanSummary) -> dict[str, Any]:
    """A plan as it stands in a list."""
    document = asdict(summary)
    for moment in ("created_at", "started_at", "finished_at"):
        document[moment] = _timestamp(document.pop(f"{moment}_ms"))
    return document


def plan_document(plan: StoredPlan) -> dict[str, Any]:
    """A plan with its progress and outcome."""
    return {
        **summary_document(plan.summary),
        "progress": _parsed(plan.progress_document),
        "outcome": _parsed(plan.outcome_document),
    }


def find_plan(wiring: Wiring, plan_id: str) -> StoredPlan:
    """The plan of that name; the problem not_found where there is none."""
    plan = None
    if is_plan_id(plan_id):
        plan = wiring.store.read(tenant_id=DEFAULT_TENANT, plan_id=plan_id)
    if plan is None:
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")
    return plan


def find_outcome(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """The outcome of a plan, of whatever kind; the problem no_result_yet where it is not final."""
    plan = find_plan(wiring, plan_id)
    if plan.outcome_document is None:
        raise ServiceProblem(
            "no_result_yet", f"The plan is {plan.summary.state}.", headers={"Retry-After": "2"}
        )
    outcome: dict[str, Any] = json.loads(plan.outcome_document)
    return outcome


def find_solved_outcome(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """The outcome of a plan that was solved; a problem that says why there is none."""
    outcome = find_outcome(wiring, plan_id)
    if outcome["outcome"] != "solved":
        raise ServiceProblem("no_plan_in_outcome")
    return outcome


def find_request(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """The request of a plan, as it was accepted; the problem not_found where there is none."""
    request: dict[str, Any] = json.loads(find_plan(wiring, plan_id).request_document)
    return request


def _timestamp(milliseconds: int | None) -> str | None:
    if milliseconds is None:
        return None
    moment = datetime.fromtimestamp(milliseconds / 1000, UTC)
    return moment.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _parsed(document: bytes | None) -> Any:  # noqa: ANN401 - whatever JSON holds
    return None if document is None else json.loads(document)
