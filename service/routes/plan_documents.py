"""Stored plans as callers see them."""

import json
from datetime import UTC, datetime
from typing import Any, Final

from api_schema.plan_resource import PlanSummaryAnswer
from service.errors import ServiceProblem
from service.former_plans import without_copies
from service.storage.plan_ids import is_plan_id
from service.storage.plans import PlanSummary, StoredPlan
from service.storage.tables import FINAL_STATES
from service.wiring import Wiring

STORED_AS_WRITTEN: Final = ("progress", "outcome")
"""Fields of a plan whose JSON is stored, and handed on without reading it again."""


def summary_answer(summary: PlanSummary) -> PlanSummaryAnswer:
    """A plan as it stands in a list."""
    return PlanSummaryAnswer(
        plan_id=summary.plan_id,
        reference=summary.reference,
        state=summary.state,
        outcome_kind=summary.outcome_kind,
        created_at=moment(summary.created_at_ms),
        started_at=None if summary.started_at_ms is None else moment(summary.started_at_ms),
        finished_at=None if summary.finished_at_ms is None else moment(summary.finished_at_ms),
        attempt=summary.attempt,
        wire_version=summary.wire_version,
        rules_version=summary.rules_version,
    )


def plan_text(plan: StoredPlan) -> bytes:
    """A plan with its progress and outcome, as JSON."""
    stored = (plan.progress_document, plan.outcome_document)
    fields = b"".join(
        b',"%s":%s' % (name.encode(), document or b"null")
        for name, document in zip(STORED_AS_WRITTEN, stored, strict=True)
    )
    return summary_answer(plan.summary).model_dump_json().encode()[:-1] + fields + b"}"


def is_final(plan: StoredPlan) -> bool:
    """Whether the plan will not change any more."""
    return plan.summary.state in FINAL_STATES


def find_plan(wiring: Wiring, plan_id: str, *, with_outcome: bool = True) -> StoredPlan:
    """The plan of that name; the problem not_found where there is none."""
    plan = None
    if is_plan_id(plan_id):
        plan = wiring.store.read(
            tenant_id=wiring.tenant_id, plan_id=plan_id, with_outcome=with_outcome
        )
    if plan is None:
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")
    return plan


def find_outcome(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """The outcome of a plan, of whatever kind; the problem no_result_yet where it is not final."""
    plan = find_plan(wiring, plan_id)
    if plan.summary.state == "cancelled":
        raise ServiceProblem("plan_cancelled")
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
    """The request of a plan, as it was accepted; the problem not_found where there is none.

    It names former plans, and has no copies of them, which only the solve has use for. Of a re-plan
    it is the request as what was counted left it.
    """
    return request_of(json.loads(find_plan(wiring, plan_id).request_document))


def request_of(document: dict[str, Any]) -> dict[str, Any]:
    """The request in what is stored of a plan."""
    request: dict[str, Any] = document["request"] if is_counted(document) else document
    return without_copies(request)


def is_counted(document: dict[str, Any]) -> bool:
    """Whether that is what is stored of a re-plan, with the count that it was made from."""
    return "state" in document


def find_whole_request(wiring: Wiring, plan_id: str) -> dict[str, Any]:
    """The request of a plan from day 1 on; the problem made_on_the_way where it is a re-plan."""
    document: dict[str, Any] = json.loads(find_plan(wiring, plan_id).request_document)
    if is_counted(document):
        raise ServiceProblem("made_on_the_way")
    return without_copies(document)


def moment(milliseconds: int) -> datetime:
    """A time of the database, in milliseconds since 1970-01-01 UTC, as the wire has it."""
    return datetime.fromtimestamp(milliseconds / 1000, UTC)
