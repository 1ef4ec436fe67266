"""A solved plan as files: a workbook, a packing list, its gear list, a calendar."""

import datetime as dt
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from starlette.responses import Response

from service.errors import ServiceProblem
from service.files.write.calendar import calendar_of
from service.files.write.workbook import workbook_of
from service.http.answers import answers_in, problems
from service.http.negotiation import CSV
from service.reports.caches import caches_of, caches_table
from service.reports.gear_list import gear_list_table, weigh_in_table
from service.reports.loads import loads_table
from service.reports.manifest import manifest_table
from service.reports.packing_list import packing_list_table
from service.reports.paper.night_table import night_table
from service.reports.purchases import purchases_of, purchases_table
from service.reports.stock import stock_table
from service.reports.tables import Table, table_of
from service.routes.files import WORKBOOK
from service.routes.plan_documents import find_plan, find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.routes.view_formats import VIEW_PROBLEMS, Mark
from service.translate.read.requests import read_plan_request
from service.wiring import Wired

router = APIRouter(tags=["files"])

CALENDAR = "text/calendar"
_PROBLEMS = VIEW_PROBLEMS
WeighIn = Annotated[
    Literal["yes", "no"], Query(description="Whether there is a column for weighed masses.")
]


def _content(media_type: str, schema: dict[str, str]) -> dict[int | str, dict[str, Any]]:
    return {200: {"content": {media_type: {"schema": schema}}}}


_BINARY = {"type": "string", "contentMediaType": WORKBOOK}
_TEXT = {"type": "string"}


@router.get(
    "/v1/plans/{plan_id}/workbook",
    operation_id="read_plan_workbook",
    summary="Read a plan as a workbook",
    description=(
        "A workbook (.xlsx) with the loads, the nights, the stock, the caches, the purchases, the "
        "packing list, the flights, the gear list and the cautions of a plan. Numbers are numbers, "
        "headers stay visible, and there are no formulas. The sheet `Gear` can be sent to `POST "
        "/v1/files/gear-list`."
    ),
    response_class=Response,
    responses={**_content(WORKBOOK, _BINARY), **_PROBLEMS},
)
def read_plan_workbook(
    wiring: Wired, plan_id: PlanId, _accepted: Annotated[str, Depends(answers_in(WORKBOOK))]
) -> Response:
    """The tables of a solved plan as one workbook."""
    outcome, request = find_solved_outcome(wiring, plan_id), find_request(wiring, plan_id)
    tables = {
        "Loads": loads_table(outcome),
        "Nights": night_table(outcome),
        "Stock": stock_table(outcome),
        "Caches": caches_table(caches_of(request, outcome)),
        "Purchases": purchases_table(purchases_of(read_plan_request(request), outcome)),
        "Packing list": packing_list_table(outcome),
        "Flights": manifest_table(outcome),
        "Gear": gear_list_table(request),
        "Cautions": table_of(("caution_id", "text"), outcome["cautions"]),
    }
    written = workbook_of(
        {name: table for name, table in tables.items() if table.rows},
        title=outcome["title"] or outcome["reference"] or plan_id,
        about=f"Plan {plan_id}. A plan is advice; the leader decides.",
        created=_finished(wiring, plan_id),
    )
    return _attachment(written, WORKBOOK, f"{plan_id}.xlsx")


@router.get(
    "/v1/plans/{plan_id}/packing-list",
    operation_id="read_plan_packing_list",
    summary="Read the packing list of a plan",
    description=(
        "What is packed before the first day, as CSV: what each person brings and what the party "
        "shares, with empty columns for what was counted and weighed."
    ),
    response_class=Response,
    responses={**_content(CSV, _TEXT), **_PROBLEMS},
)
def read_plan_packing_list(
    wiring: Wired,
    plan_id: PlanId,
    _accepted: Annotated[str, Depends(answers_in(CSV))],
    mark: Mark,
) -> Response:
    """The packing list of a solved plan."""
    table = packing_list_table(find_solved_outcome(wiring, plan_id))
    return _csv(table, f"{plan_id}-packing-list.csv", mark)


@router.get(
    "/v1/plans/{plan_id}/gear-list",
    operation_id="read_plan_gear_list",
    summary="Read the gear list of a plan's request",
    description=(
        "The gear and the kits of the request as CSV. `POST /v1/files/gear-list` reads it again, "
        "so masses can be corrected in a spreadsheet. With `weigh_in` there is a blank column for "
        "weighed masses. When the list is read again, weighed masses replace the others, and items "
        "without one are listed."
    ),
    response_class=Response,
    responses={**_content(CSV, _TEXT), **problems("not_found", "invalid_request")},
)
def read_plan_gear_list(
    wiring: Wired,
    plan_id: PlanId,
    _accepted: Annotated[str, Depends(answers_in(CSV))],
    mark: Mark,
    weigh_in: WeighIn = "no",
) -> Response:
    """The gear list of a plan's request."""
    made = weigh_in_table if weigh_in == "yes" else gear_list_table
    table = made(find_request(wiring, plan_id))
    return _csv(table, f"{plan_id}-gear-list.csv", mark)


@router.get(
    "/v1/plans/{plan_id}/calendar",
    operation_id="read_plan_calendar",
    summary="Read the days of a plan as a calendar",
    description=(
        "One event for each day (iCalendar, RFC 5545), all day long, with places and loads. Events "
        "of the same plan replace each other."
    ),
    response_class=Response,
    responses={
        **_content(CALENDAR, _TEXT),
        **problems(
            "not_found",
            "no_result_yet",
            "plan_cancelled",
            "no_plan_in_outcome",
            "no_dates",
            "invalid_request",
        ),
    },
)
def read_plan_calendar(
    wiring: Wired, plan_id: PlanId, _accepted: Annotated[str, Depends(answers_in(CALENDAR))]
) -> Response:
    """The days of a solved plan with dates."""
    outcome = find_solved_outcome(wiring, plan_id)
    if outcome["start_date"] is None:
        raise ServiceProblem("no_dates")
    places = find_request(wiring, plan_id)["route"]["places"]
    written = calendar_of(
        outcome,
        plan_id=plan_id,
        sequence=find_plan(wiring, plan_id).summary.attempt - 1,
        stamp=_finished(wiring, plan_id),
        names={place["place_id"]: place.get("name") or place["place_id"] for place in places},
    )
    return _attachment(written, CALENDAR, f"{plan_id}.ics")


def _finished(wiring: Wired, plan_id: str) -> dt.datetime:
    summary = find_plan(wiring, plan_id).summary
    milliseconds = summary.finished_at_ms or summary.created_at_ms
    return dt.datetime.fromtimestamp(milliseconds // 1000, dt.UTC)


def _csv(table: Table, file_name: str, mark: bytes) -> Response:
    return _attachment(mark + table.as_csv(), CSV, file_name)


def _attachment(content: bytes, media_type: str, file_name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{file_name}"'}
    return Response(content, media_type=media_type, headers=headers)
