"""Tables at addresses of their own that are no views of a plan, for clients that know one type."""

from typing import Any, Final

from fastapi import APIRouter, Depends
from starlette.responses import Response

from service.http.answers import answers_in, problems
from service.http.negotiation import CSV
from service.routes import limits_that_bind, plan_differences, reports
from service.routes.comparisons import ComparisonId, read_one_comparison
from service.routes.library import read_gear_library
from service.routes.plans import PlanId
from service.routes.report_answers import Form
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
    responses={**_TABLE, **limits_that_bind.PROBLEMS},
)
def read_limits_table(
    wiring: Wired,
    plan_id: PlanId,
    mark: Mark,
    seconds: limits_that_bind.Seconds = 20,
) -> Response:
    """The limits that bind a solved plan."""
    return limits_that_bind.read_limits_that_bind(wiring, plan_id, CSV, mark, seconds)


@router.get(
    "/v1/plans/{plan_id}/difference.csv",
    operation_id="read_plan_difference_csv",
    summary="Read what differs between two plans, as CSV",
    description="The table that `/v1/plans/{plan_id}/difference` gives for `text/csv`.",
    tags=["comparisons"],
    response_class=Response,
    responses={**_TABLE, **plan_differences.PROBLEMS},
)
def read_difference_table(
    wiring: Wired,
    plan_id: PlanId,
    to: plan_differences.OtherPlanId,
) -> Response:
    """The difference from one plan to another."""
    return plan_differences.read_plan_difference(wiring, plan_id, CSV, to)


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
    report_id: reports.ReportId,
    mark: Mark,
) -> Response:
    """One stored report."""
    return reports.read_trip_report(wiring, plan_id, report_id, Form(CSV, "a4", mark))


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
