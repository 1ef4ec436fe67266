"""A plan at its own address: read it as JSON or as a page, read its request, delete it."""

import json

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.plan_resource import PlanResourceAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, problems, written_answer
from service.http.described_headers import READ_AGAIN
from service.http.negotiation import HTML, JSON
from service.pages.pdf_printer import can_print
from service.routes.plan_documents import (
    find_plan,
    find_request,
    is_counted,
    is_final,
    plan_text,
    request_of,
    summary_answer,
)
from service.routes.plans import PlanId
from service.routes.screen_answers import PAGE_TOO, MediaType, screen_answer
from service.routes.unchanged import AsRead
from service.routes.view_formats import VARY
from service.routes.waiting import read_again
from service.screens.plan_screen import PlanSeen, plan_screen
from service.storage.plan_ids import is_plan_id
from service.storage.plans import StoredPlan
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plans"])


@router.get(
    "/v1/plans/{plan_id}",
    operation_id="read_plan",
    summary="Read a plan",
    description=(
        "The state, progress and outcome of a plan. If its solve failed, the answer is 200 too, "
        "and the outcome says what failed. While the plan is not final, `Retry-After` says when to "
        "read it again. A browser gets a page that follows the solve and leads to each view."
    ),
    response_model=PlanResourceAnswer,
    responses={
        200: {**PAGE_TOO[200], "headers": dict(READ_AGAIN)},
        **problems("not_found", "invalid_request"),
    },
)
def read_plan(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """One plan with all that is known of it."""
    plan = find_plan(wiring, plan_id)
    if media_type == HTML:
        return screen_answer(plan_screen(_seen(wiring, plan), can_print=can_print()))
    headers = {**VARY, **read_again(final=is_final(plan))}
    return written_answer(plan_text(plan), headers=headers)


@router.get(
    "/v1/plans/{plan_id}/request",
    operation_id="read_plan_request",
    summary="Read the request of a plan",
    description=(
        "The request as it was accepted, ready to be changed and sent again. Of a re-plan it is "
        "the request of the whole expedition as the count changed it, and alone it makes a plan "
        "from day 1. To make the re-plan again, you need the count, to which the header `Link` "
        "leads: `GET /v1/plans/{plan_id}/counted`."
    ),
    response_class=Response,
    dependencies=[JSON_ONLY],
    responses={
        200: {
            "description": "The request.",
            "headers": {
                "Link": {
                    "description": 'The count of a re-plan, with rel="related" (RFC 8288). Left '
                    "out for other plans.",
                    "schema": {"type": "string"},
                }
            },
            "content": {JSON: {"schema": {"$ref": "#/components/schemas/PlanRequest"}}},
        },
        **problems("not_found"),
    },
)
def read_plan_request(wiring: Wired, plan_id: PlanId) -> Response:
    """The stored request."""
    document = json.loads(find_plan(wiring, plan_id, with_outcome=False).request_document)
    request, headers = request_of(document), {}
    if is_counted(document):
        headers["Link"] = f'</v1/plans/{plan_id}/counted>; rel="related"'
    return written_answer(json.dumps(request, ensure_ascii=False).encode(), headers=headers)


@router.delete(
    "/v1/plans/{plan_id}",
    operation_id="delete_plan",
    summary="Delete a plan",
    description=(
        "Removes the plan, its request, its outcome, its events and its reports for good, with "
        "everything that they say about people. If a solve is running, it ends. Re-plans of it "
        "stay in the line, as re-plans of the plan before it. A plan near to this one, or begun "
        "from it, keeps a copy of it only until it is final. A comparison keeps the names of its "
        "variants, what their edits did and their faults, with the ids of people in them."
    ),
    status_code=204,
    response_class=Response,
    dependencies=[JSON_ONLY],
    responses={
        204: {"description": "The plan is gone."},
        **problems("not_found", "changed_since"),
    },
)
def delete_plan(wiring: Wired, plan_id: PlanId, as_read: AsRead) -> Response:
    """Remove one plan."""
    if not is_plan_id(plan_id) or not wiring.store.delete(
        tenant_id=wiring.tenant_id, plan_id=plan_id, only_if=as_read
    ):
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")
    wiring.completions.announce(plan_id)
    return Response(status_code=204)


def _seen(wiring: Wiring, plan: StoredPlan) -> PlanSeen:
    plan_id, tenant_id = plan.summary.plan_id, wiring.tenant_id
    line = wiring.lineage.line_to(tenant_id=tenant_id, plan_id=plan_id)
    return PlanSeen(
        summary=summary_answer(plan.summary),
        request=find_request(wiring, plan_id),
        progress=None if plan.progress_document is None else json.loads(plan.progress_document),
        outcome=None if plan.outcome_document is None else json.loads(plan.outcome_document),
        former=tuple(entry.plan_id for entry in line[:-1]),
        what_if=line[-1].what_if if line else False,
        superseded_by=wiring.lineage.replaced_by(tenant_id=tenant_id, plan_id=plan_id),
    )
