"""Papers made from a solved plan: who has what by name, what to buy, what to pack and label."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.bag_answer import BagsAnswer
from api_schema.load_sheet_answer import LoadSheetAnswer
from api_schema.purchase_answer import PurchasesAnswer
from service.http.answers import json_answer
from service.http.negotiation import CSV
from service.reports.bags import bags_of, bags_table
from service.reports.paper.load_sheet import load_sheet_table, sheet_parts
from service.reports.purchases import purchases_of, purchases_table
from service.routes.plan_documents import find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.routes.view_formats import CSV_TOO, VARY, VIEW_PROBLEMS, Mark, MediaType, csv_answer
from service.translate.read.requests import read_plan_request
from service.wiring import Wired

router = APIRouter(tags=["papers of a plan"])


@router.get(
    "/v1/plans/{plan_id}/load-sheet",
    operation_id="read_plan_load_sheet",
    summary="Read the load sheet of a plan",
    description=(
        "Who has what by name: the keepers, everybody's things on each trip, what changes hands "
        "and why, and the kitchen of each night. CSV has one line for each kind of thing. "
        "`examples/print_plan.py` prints the same for paper."
    ),
    response_model=LoadSheetAnswer,
    responses={**CSV_TOO, **VIEW_PROBLEMS},
)
def read_plan_load_sheet(
    wiring: Wired, plan_id: PlanId, media_type: MediaType, mark: Mark
) -> Response:
    """The load sheet of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    if media_type == CSV:
        name = f"{plan_id}-load-sheet.csv"
        return csv_answer(load_sheet_table(outcome), outcome, file_name=name, mark=mark)
    answer = LoadSheetAnswer(
        plan_id=plan_id,
        reference=outcome["reference"],
        cautions=outcome["cautions"],
        **sheet_parts(outcome),
    )
    return json_answer(answer, headers=VARY)


@router.get(
    "/v1/plans/{plan_id}/purchases",
    operation_id="read_plan_purchases",
    summary="Read what to buy for a plan",
    description=(
        "All that is taken along: night sets by kind and cook group, containers by size, and gear, "
        "with counts and masses. Each row says whether its mass and volume are given or assumed."
    ),
    response_model=PurchasesAnswer,
    responses={**CSV_TOO, **VIEW_PROBLEMS},
)
def read_plan_purchases(
    wiring: Wired, plan_id: PlanId, media_type: MediaType, mark: Mark
) -> Response:
    """The shopping list of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    purchases = purchases_of(read_plan_request(find_request(wiring, plan_id)), outcome)
    if media_type == CSV:
        name = f"{plan_id}-purchases.csv"
        return csv_answer(purchases_table(purchases), outcome, file_name=name, mark=mark)
    answer = PurchasesAnswer(
        plan_id=plan_id,
        reference=outcome["reference"],
        cautions=outcome["cautions"],
        assumed=sum(purchase.basis != "given" for purchase in purchases),
        purchases=purchases,
    )
    return json_answer(answer, headers=VARY)


@router.get(
    "/v1/plans/{plan_id}/bags",
    operation_id="read_plan_bags",
    summary="Read the labels of a plan's bags",
    description=(
        "What to pack and how to label it: the bags of food for each night and for the reserves, "
        "the fuel containers in the order in which they are opened, and everybody's personal kit. "
        "Each label has the owner, the contents, the first day of use and the places where the "
        "things wait."
    ),
    response_model=BagsAnswer,
    responses={**CSV_TOO, **VIEW_PROBLEMS},
)
def read_plan_bags(wiring: Wired, plan_id: PlanId, media_type: MediaType, mark: Mark) -> Response:
    """The labels of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    bags = bags_of(read_plan_request(find_request(wiring, plan_id)), outcome)
    if media_type == CSV:
        return csv_answer(bags_table(bags), outcome, file_name=f"{plan_id}-bags.csv", mark=mark)
    answer = BagsAnswer(
        plan_id=plan_id,
        reference=outcome["reference"],
        cautions=outcome["cautions"],
        bags=bags,
    )
    return json_answer(answer, headers=VARY)
