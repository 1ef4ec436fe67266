"""Views of a solved plan, each as JSON and as CSV."""

from typing import Any

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.cache_answer import CachesAnswer
from api_schema.plan_resource import CautionsAnswer, LoadsAnswer, ManifestAnswer, StockListAnswer
from service.http.answers import json_answer, problems
from service.http.negotiation import CSV
from service.reports.caches import caches_of, caches_table, poles_at_once
from service.reports.loads import loads_table
from service.reports.manifest import PILOT_DECIDES, manifest_table
from service.reports.stock import stock_table
from service.reports.tables import table_of
from service.routes.plan_documents import find_outcome, find_request
from service.routes.plans import PlanId
from service.routes.view_formats import CSV_TOO, VARY, Mark, MediaType
from service.routes.view_route import Seen, view_route
from service.wiring import Wired, Wiring

router = APIRouter(tags=["views of a plan"])


@view_route(
    router,
    "loads",
    summary="Read the loads of a plan",
    description=(
        "What each person carries on each trip, in the pack and on the sled. CSV has one line for "
        "each kind of unit. Water, lunch and the empty sled have lines of their own, so that "
        "`kg` adds up to the gross load. What is worn or in use adds nothing: `carried_in` is "
        "`in_use` there."
    ),
    model=LoadsAnswer,
)
def read_plan_loads(_wiring: Wiring, _plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The loads of a solved plan."""
    return Seen({"trips": outcome["plan"]["trips"]}, lambda: loads_table(outcome))


@view_route(
    router,
    "stock",
    summary="Read the stock of a plan",
    description=(
        "What is at each place after each night, and for how many nights its food and fuel last. "
        "CSV has one line for each kind of unit."
    ),
    model=StockListAnswer,
)
def read_plan_stock(_wiring: Wiring, _plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The stock of a solved plan."""
    return Seen({"stock": outcome["plan"]["stock"]}, lambda: stock_table(outcome))


@view_route(
    router,
    "caches",
    summary="Read the caches of a plan",
    description=(
        "What is left alone at each place and for how long. Food and fuel are listed separately, "
        "with the poles that mark the cache and the text for its label. CSV has one line for each "
        "kind of unit."
    ),
    model=CachesAnswer,
)
def read_plan_caches(wiring: Wiring, plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The caches of a solved plan."""
    caches = caches_of(find_request(wiring, plan_id), outcome)
    return Seen(
        {
            "poles_at_once": poles_at_once(caches),
            "labels": sum(cache.labels for cache in caches),
            "caches": caches,
        },
        lambda: caches_table(caches),
    )


@view_route(
    router,
    "manifest",
    summary="Read the manifest of a plan's flights",
    description=(
        "Who and what is on each flight, with the masses, the payload, and whether fuel is "
        "aboard. CSV has one line for each person and each kind of unit. It is empty for a plan "
        "without flights."
    ),
    model=ManifestAnswer,
)
def read_plan_manifest(_wiring: Wiring, _plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The flights of a solved plan."""
    return Seen(
        {"pilot": PILOT_DECIDES, "flights": outcome["plan"]["flights"]},
        lambda: manifest_table(outcome),
    )


@router.get(
    "/v1/plans/{plan_id}/cautions",
    operation_id="read_plan_cautions",
    summary="Read the cautions of a plan",
    description=(
        "The cautions of a plan, or of a refusal. Every other view has them as well. In CSV, the "
        "last column of a view names them by their ids."
    ),
    response_model=CautionsAnswer,
    responses={
        **CSV_TOO,
        **problems("not_found", "no_result_yet", "plan_cancelled", "invalid_request"),
    },
)
def read_plan_cautions(
    wiring: Wired, plan_id: PlanId, media_type: MediaType, mark: Mark
) -> Response:
    """The cautions of an outcome, whatever it is."""
    outcome = find_outcome(wiring, plan_id)
    if media_type == CSV:
        table = table_of(("caution_id", "text"), outcome["cautions"])
        file_name = f"{plan_id}-cautions.csv"
        headers = {**VARY, "Content-Disposition": f'attachment; filename="{file_name}"'}
        return Response(mark + table.as_csv(), media_type=CSV, headers=headers)
    answer = CautionsAnswer(
        plan_id=plan_id, reference=outcome["reference"], cautions=outcome["cautions"]
    )
    return json_answer(answer, headers=VARY)
