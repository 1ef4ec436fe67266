"""Tables at addresses of their own that are no views of a plan, for clients that know one type."""

from typing import Annotated, Any, Final

from fastapi import APIRouter, Depends, Path, Query
from starlette.responses import Response

from api_schema.plan_resource import PLAN_ID_PATTERN
from service.http.answers import answers_in, problems
from service.http.negotiation import CSV
from service.routes.comparisons import ComparisonId, read_one_comparison
from service.routes.library import read_gear_library
from service.routes.limits_that_bind import read_limits_that_bind
from service.routes.plan_differences import read_plan_difference
from service.routes.plans import PlanId
from service.routes.report_answers import Form
from service.routes.reports import read_trip_report
from service.routes.view_formats import VIEW_PROBLEMS, Mark
from service.wiring import Wired

router = APIRouter(dependencies=[Depends(answers_in(CSV))])

_TABLE: Final[dict[int | str, dict[str, Any]]] = {
    200: {"description": "The table.", "content": {CSV: {"schema": {"type": "string"}}}}
}


@router.get(
    "/v1/plans/{plan_id}/limits-that-bind.csv",
    operation_id="read_limits_that_bind_csv",
    summary="Ask what binds a plan, as CSV",
    description="The table that `/v1/plans/{plan_id}/limits-that-bind` gives for `text/csv`.",
    tags=["views of a plan"],
    response_class=Response,
    responses={**_TABLE, **VIEW_PROBLEMS, **problems("invalid_request", "too_busy")},
)
def read_limits_table(
    wiring: Wired,
    plan_id: PlanId,
    mark: Mark,
    seconds: Annotated[
        int, Query(ge=2, le=120, description="Time for solving steps, in seconds.")
    ] = 20,
) -> Response:
    """The limits that bind a solved plan."""
    return read_limits_that_bind(wiring, plan_id, CSV, mark, seconds)


@router.get(
    "/v1/plans/{plan_id}/difference.csv",
    operation_id="read_plan_difference_csv",
    summary="Read what differs between two plans, as CSV",
    description="The table that `/v1/plans/{plan_id}/difference` gives for `text/csv`.",
    tags=["comparisons"],
    response_class=Response,
    responses={
        **_TABLE,
        **problems("not_found", "no_result_yet", "plan_cancelled", "invalid_request"),
    },
)
def read_difference_table(
    wiring: Wired,
    plan_id: PlanId,
    to: Annotated[
        str, Query(pattern=PLAN_ID_PATTERN, description="The plan to compare this one with.")
    ],
) -> Response:
    """The difference from one plan to another."""
    return read_plan_difference(wiring, plan_id, CSV, to)


@router.get(
    "/v1/comparisons/{comparison_id}/table.csv",
    operation_id="read_comparison_csv",
    summary="Read a comparison as CSV",
    description="The table that `/v1/comparisons/{comparison_id}` gives for `text/csv`.",
    tags=["comparisons"],
    response_class=Response,
    responses={**_TABLE, **problems("not_found")},
)
def read_comparison_table(wiring: Wired, comparison_id: ComparisonId) -> Response:
    """One comparison."""
    return read_one_comparison(wiring, comparison_id, CSV)


@router.get(
    "/v1/plans/{plan_id}/reports/{report_id}/table.csv",
    operation_id="read_trip_report_csv",
    summary="Read a report on a plan, as CSV",
    description="The table that `/v1/plans/{plan_id}/reports/{report_id}` gives for `text/csv`.",
    tags=["after the expedition"],
    response_class=Response,
    responses={**_TABLE, **VIEW_PROBLEMS},
)
def read_report_table(
    wiring: Wired,
    plan_id: PlanId,
    report_id: Annotated[str, Path(description="The name that the service gave the report.")],
    mark: Mark,
) -> Response:
    """One stored report."""
    return read_trip_report(wiring, plan_id, report_id, Form(CSV, "a4", mark))


@router.get(
    "/v1/library/gear.csv",
    operation_id="read_gear_library_csv",
    summary="Read the library of generic gear as CSV",
    description="The gear list that `/v1/library/gear` gives for `text/csv`.",
    tags=["facts"],
    response_class=Response,
    responses={**_TABLE, **problems("invalid_request")},
)
def read_gear_table(mark: Mark) -> Response:
    """The generic gear."""
    return read_gear_library(CSV, mark)
