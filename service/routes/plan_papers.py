"""Papers made from a solved plan: who has what by name."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.load_sheet_answer import LoadSheetAnswer
from service.http.answers import json_answer
from service.http.negotiation import CSV
from service.reports.paper.load_sheet import load_sheet_table, sheet_parts
from service.routes.plan_documents import find_solved_outcome
from service.routes.plans import PlanId
from service.routes.view_formats import CSV_TOO, VARY, VIEW_PROBLEMS, MediaType, csv_answer
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
def read_plan_load_sheet(wiring: Wired, plan_id: PlanId, media_type: MediaType) -> Response:
    """The load sheet of a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    if media_type == CSV:
        name = f"{plan_id}-load-sheet.csv"
        return csv_answer(load_sheet_table(outcome), outcome, file_name=name)
    answer = LoadSheetAnswer(
        plan_id=plan_id,
        reference=outcome["reference"],
        cautions=outcome["cautions"],
        **sheet_parts(outcome),
    )
    return json_answer(answer, headers=VARY)
