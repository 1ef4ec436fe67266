"""Views of a solved plan, each as JSON and as CSV."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from starlette.responses import Response

from api_schema.cache_answer import CachesAnswer
from api_schema.plan_resource import (
    CautionsAnswer,
    LoadsAnswer,
    ManifestAnswer,
    StockListAnswer,
)
from service.http.answers import answers_in, json_answer, problems
from service.http.negotiation import CSV, JSON
from service.plan_documents import find_outcome, find_request, find_solved_outcome
from service.reports.caches import caches_of, caches_table
from service.reports.loads import loads_table
from service.reports.manifest import PILOT_DECIDES, manifest_table
from service.reports.stock import stock_table
from service.reports.tables import Table, table_of
from service.routes.plans import PlanId
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"])

_PROBLEMS = problems("not_found", "no_result_yet", "no_plan_in_outcome", "invalid_request")
CAUTION_COLUMNS = ("caution_id", "text")

_CSV_TOO: dict[int | str, dict[str, Any]] = {
    200: {"content": {CSV: {"schema": {"type": "string"}}}}
}


def _format(
    accepted: Annotated[str, Depends(answers_in(JSON, CSV))],
    asked: Annotated[
        Literal["json", "csv"] | None,
        Query(alias="format", description="Goes before the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"json": JSON, "csv": CSV, None: accepted}[asked]


MediaType = Annotated[str, Depends(_format)]


@router.get(
    "/v1/plans/{plan_id}/loads",
    operation_id="read_plan_loads",
    summary="Read the loads of a plan",
    description=(
        "What each person carries on each trip, in pack and on sled. As CSV one line a kind of "
        "unit; water, lunch and the sled itself have lines, so that `kg` adds up to gross loads."
    ),
    response_model=LoadsAnswer,
    responses={**_CSV_TOO, **_PROBLEMS},
)
def read_plan_loads(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The loads of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    if media_type == CSV:
        return _csv_answer(plan_id, loads_table(outcome), "loads")
    return _json_part(plan_id, outcome, "trips")


@router.get(
    "/v1/plans/{plan_id}/stock",
    operation_id="read_plan_stock",
    summary="Read the stock of a plan",
    description=(
        "What stands at each place after each night, with the nights of food and fuel that it "
        "makes. As CSV one line a kind of unit."
    ),
    response_model=StockListAnswer,
    responses={**_CSV_TOO, **_PROBLEMS},
)
def read_plan_stock(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The stock of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    if media_type == CSV:
        return _csv_answer(plan_id, stock_table(outcome), "stock")
    return _json_part(plan_id, outcome, "stock")


@router.get(
    "/v1/plans/{plan_id}/caches",
    operation_id="read_plan_caches",
    summary="Read the caches of a plan",
    description=(
        "What is left alone at each place, from when to when, with food and fuel apart, the poles "
        "that mark it and what to write on its label. As CSV one line a kind of unit."
    ),
    response_model=CachesAnswer,
    responses={**_CSV_TOO, **_PROBLEMS},
)
def read_plan_caches(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The caches of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    told = caches_of(find_request(wiring, plan_id), outcome)
    if media_type == CSV:
        return _csv_answer(plan_id, caches_table(told["caches"]), "caches")
    return _json_answer(plan_id, outcome, told)


@router.get(
    "/v1/plans/{plan_id}/manifest",
    operation_id="read_plan_manifest",
    summary="Read the manifest of a plan's flights",
    description=(
        "Who and what is on each flight, with masses, the payload, and whether fuel is aboard. As "
        "CSV one line a person and a kind of unit; empty for a plan without flights."
    ),
    response_model=ManifestAnswer,
    responses={**_CSV_TOO, **_PROBLEMS},
)
def read_plan_manifest(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The flights of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    if media_type == CSV:
        return _csv_answer(plan_id, manifest_table(outcome), "manifest")
    flights = {"pilot": PILOT_DECIDES, "flights": outcome["plan"]["flights"]}
    return _json_answer(plan_id, outcome, flights)


@router.get(
    "/v1/plans/{plan_id}/cautions",
    operation_id="read_plan_cautions",
    summary="Read the cautions of a plan",
    description=(
        "What to be careful of, for a plan or where there is none. Every other view carries the "
        "same; as CSV they have a column that points here."
    ),
    response_model=CautionsAnswer,
    responses={**_CSV_TOO, **problems("not_found", "no_result_yet", "invalid_request")},
)
def read_plan_cautions(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The cautions of an outcome, whatever it is."""
    outcome = find_outcome(wiring, plan_id)
    if media_type == CSV:
        return _csv_answer(plan_id, table_of(CAUTION_COLUMNS, outcome["cautions"]), "cautions")
    return _json_answer(plan_id, outcome, {})


def _json_part(plan_id: str, outcome: dict[str, Any], part: str) -> Response:
    return _json_answer(plan_id, outcome, {part: outcome["plan"][part]})


def _json_answer(plan_id: str, outcome: dict[str, Any], told: dict[str, Any]) -> Response:
    """A view with the cautions of its plan in front of what it tells."""
    head = {"plan_id": plan_id, "reference": outcome["reference"], "cautions": outcome["cautions"]}
    return json_answer(head | told, headers={"Vary": "Accept"})


def _csv_answer(plan_id: str, table: Table, view: str) -> Response:
    """A table; all but that of the cautions say in a last column where those are."""
    if view != "cautions":
        table = table.pointing_to(f"/v1/plans/{plan_id}/cautions")
    file_name = f"{plan_id}-{view}.csv"
    headers = {"Vary": "Accept", "Content-Disposition": f'attachment; filename="{file_name}"'}
    return Response(table.as_csv(), media_type=CSV, headers=headers)
