"""The plan after day 1: a re-plan from what was counted, and the line of plans."""

import json
from typing import Annotated

from fastapi import APIRouter, Header, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.plan_resource import PlanResourceAnswer
from api_schema.replan import ReplanRequest
from api_schema.replan_answer import CountAnswer, HistoryAnswer, LineEntryAnswer
from service.errors import ServiceProblem
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.routes.once import IdempotencyKey, begun_once, begun_plan
from service.routes.plan_documents import find_plan, is_counted, moment
from service.routes.plans import PlanId
from service.routes.replanning import accept_replan, replan_documents
from service.routes.report_answers import reports_on
from service.routes.waiting import plan_answer, step_out, work_answers
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
    key: IdempotencyKey = None,
) -> Response:
    """Store a counted state and wait for the plan of the rest as long as the caller prefers."""
    if key is None:
        # With a key it may be a re-plan that was begun before this plan was deleted.
        await run_in_threadpool(find_plan, wiring, plan_id)
    accepted = await begun_once(
        request,
        wiring,
        key,
        begin=lambda state, named: accept_replan(wiring, plan_id, state, named),
        again=lambda begun_id: begun_plan(wiring, begun_id),
    )
    step_out(request)
    return await plan_answer(request, wiring, accepted.plan_id)


@router.get(
    "/v1/plans/{plan_id}/counted",
    operation_id="read_plan_count",
    summary="Read the count of a re-plan",
    description=(
        "What was counted for a re-plan, as it was sent, and the plan that was followed. If you "
        "send it to that plan again, you get the same re-plan. A plan that was made before the "
        "start has no count, and the answer is 404."
    ),
    response_model=CountAnswer,
    responses=problems("not_found"),
)
def read_count(wiring: Wired, plan_id: PlanId) -> Response:
    """What one re-plan was made from."""
    document = json.loads(find_plan(wiring, plan_id, with_outcome=False).request_document)
    if not is_counted(document):
        raise ServiceProblem("not_found", "This plan was not made from a count.")
    counted, of_plan = document["state"], document["of_plan"]
    return json_answer(CountAnswer(plan_id=plan_id, of_plan=of_plan, counted=counted))


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
