"""Papers made from a solved plan: who has what by name, what to buy, what to pack and label."""

from typing import Any

from fastapi import APIRouter

from api_schema.bag_answer import BagsAnswer
from api_schema.load_sheet_answer import LoadSheetAnswer
from api_schema.purchase_answer import PurchasesAnswer
from service.reports.bags import bags_of, bags_table
from service.reports.paper.load_sheet import load_sheet_table, sheet_parts
from service.reports.purchases import purchases_of, purchases_table
from service.routes.plan_documents import find_request
from service.routes.view_route import Seen, view_route
from service.translate.read.requests import read_plan_request
from service.wiring import Wiring

router = APIRouter(tags=["papers of a plan"])


@view_route(
    router,
    "load-sheet",
    summary="Read the load sheet of a plan",
    description=(
        "Who has what by name: the keepers, everybody's things on each trip, what changes hands "
        "and why, and the kitchen of each night. CSV has one line for each kind of thing. "
        "`examples/print_plan.py` prints the same for paper."
    ),
    model=LoadSheetAnswer,
)
def read_plan_load_sheet(_wiring: Wiring, _plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The load sheet of a solved plan."""
    return Seen(sheet_parts(outcome), lambda: load_sheet_table(outcome))


@view_route(
    router,
    "purchases",
    summary="Read what to buy for a plan",
    description=(
        "All that is taken along: night sets by kind and cook group, containers by size, and gear, "
        "with counts and masses. Each row says whether its mass and volume are given or assumed."
    ),
    model=PurchasesAnswer,
)
def read_plan_purchases(wiring: Wiring, plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The shopping list of a solved plan."""
    purchases = purchases_of(read_plan_request(find_request(wiring, plan_id)), outcome)
    return Seen(
        {
            "assumed": sum(purchase.basis != "given" for purchase in purchases),
            "costs": outcome.get("costs"),
            "purchases": purchases,
        },
        lambda: purchases_table(purchases),
    )


@view_route(
    router,
    "bags",
    summary="Read the labels of a plan's bags",
    description=(
        "What to pack and how to label it: the bags of food for each night and for the reserves, "
        "the fuel containers in the order in which they are opened, and everybody's personal kit. "
        "Each label has the owner, the contents, the first day of use and the places where the "
        "things wait."
    ),
    model=BagsAnswer,
)
def read_plan_bags(wiring: Wiring, plan_id: str, outcome: dict[str, Any]) -> Seen:
    """The labels of a solved plan."""
    bags = bags_of(read_plan_request(find_request(wiring, plan_id)), outcome)
    return Seen({"bags": bags}, lambda: bags_table(bags))
