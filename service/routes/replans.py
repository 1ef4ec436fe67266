"""The plan after day 1: a re-plan from what was counted, and the line of plans."""

from typing import Annotated

from fastapi import APIRouter, Header, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.plan_resource import PlanResourceAnswer
from api_schema.replan import ReplanRequest
from api_schema.replan_answer import HistoryAnswer, LineEntryAnswer
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.parameter_faults import KEY_PATTERN
from service.routes.plan_documents import find_plan, moment
from service.routes.plans import PlanId
from service.routes.replanning import accept_replan, replan_documents
from service.routes.report_answers import reports_on
from service.routes.waiting import plan_answer, step_out, work_answers, work_body
from service.storage.lineage import LineEntry
from service.wiring import Wired, Wiring

router = APIRouter(tags=["re-plans"], dependencies=[JSON_ONLY])

EXAMPLE_STATE = {
    "at": {"day": 2, "moment": "evening"},
    "wait_nights": 1,
    "letting_go": [{"reserve": "storm", "reason": "we are sitting in the storm it is for"}],
}


@router.post(
    "/v1/plans/{plan_id}/replans",
    operation_id="create_replan",
    summary="Plan the rest from what was counted",
    description=(
        "Takes what was counted on the way, checks it against the plan that was followed, stores "
        "it, and plans the rest in the background. Everything else is as planned. The new plan "
        "contains the whole expedition, with the trips that were made. `outcome.rest.say` says "
        "what to do. If the old plan still stands, it comes back unchanged. The new plan "
        "supersedes the old one and every other re-plan of it, unless you ask with `what_if`."
    ),
    status_code=202,
    response_model=PlanResourceAnswer,
    responses={
        **work_answers(
            PlanResourceAnswer,
            what="The new plan.",
            ready="The new plan, ready within the wait.",
            accepted="Accepted: the rest is being planned.",
        ),
        **problems(
            *EVERY_BODY,
            "not_found",
            "no_result_yet",
            "plan_cancelled",
            "no_plan_in_outcome",
            "idempotency_key_reused",
            "queue_full",
            "shutting_down",
        ),
    },
    openapi_extra=takes_json("ReplanRequest", {"a_storm": EXAMPLE_STATE}),
)
async def create_replan(
    request: Request,
    wiring: Wired,
    plan_id: PlanId,
    _prefer: Annotated[
        str | None,
        Header(alias="Prefer", description="`wait=N`: seconds to wait for the outcome."),
    ] = None,
    key: Annotated[
        str | None,
        Header(
            alias="Idempotency-Key",
            description="The same key with the same body gives the same plan.",
            pattern=KEY_PATTERN,
        ),
    ] = None,
) -> Response:
    """Store a counted state and wait for the plan of the rest as long as the caller prefers."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    body = await work_body(request, wiring)
    accepted = await run_in_threadpool(accept_replan, wiring, plan_id, body, key)
    del body
    step_out(request)
    return await plan_answer(request, wiring, accepted.plan_id)


@router.get(
    "/v1/plans/{plan_id}/history",
    operation_id="read_plan_history",
    summary="Read the line of a plan",
    description=(
        "The plan and the plans from which it was made, the oldest first. Each has what was "
        "counted for it and what it said. All plans that come of one first plan are for one party, "
        "and one of them holds: the solved plan that was made or released last. A re-plan that "
        "was asked with `what_if` counts only once it was released or re-planned. If the plan that "
        "holds is deleted, the same is asked of those that are left. `superseded_by` names the "
        "plan that holds. At the end stands what was reported after the expedition."
    ),
    response_model=HistoryAnswer,
    responses=problems("not_found"),
)
def read_history(wiring: Wired, plan_id: PlanId) -> Response:
    """The line of one plan."""
    find_plan(wiring, plan_id)
    line = wiring.lineage.line_to(tenant_id=wiring.tenant_id, plan_id=plan_id)
    return json_answer(
        HistoryAnswer(
            plans=[_entry(wiring, entry) for entry in line],
            reports=reports_on(wiring, [entry.plan_id for entry in line]),
            superseded_by=wiring.lineage.superseded_by(tenant_id=wiring.tenant_id, plan_id=plan_id),
        )
    )


def _entry(wiring: Wiring, entry: LineEntry) -> LineEntryAnswer:
    plan = find_plan(wiring, entry.plan_id)
    state, rest = replan_documents(plan)
    counted = None if state is None else ReplanRequest.model_validate(state)
    return LineEntryAnswer(
        plan_id=entry.plan_id,
        former_plan_id=entry.former_plan_id,
        what_if=entry.what_if,
        created_at=moment(plan.summary.created_at_ms),
        state=plan.summary.state,
        outcome_kind=plan.summary.outcome_kind,
        day=None if counted is None else counted.at.day,
        moment=None if counted is None else counted.at.moment,
        say=[] if rest is None else rest["say"],
        unexplained=[] if rest is None else rest["unexplained"],
        counted=state,
    )
