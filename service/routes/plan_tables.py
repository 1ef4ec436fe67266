"""Views of a solved plan as CSV at addresses of their own, for clients that know one type each."""

from collections.abc import Callable

from fastapi import APIRouter, Depends
from starlette.responses import Response

from service.http.answers import answers_in
from service.http.negotiation import CSV
from service.routes import plan_papers, plan_views
from service.routes.plans import PlanId
from service.routes.view_formats import VIEW_PROBLEMS, Mark
from service.routes.view_route import View
from service.wiring import Wired, Wiring

router = APIRouter(tags=["views of a plan"], dependencies=[Depends(answers_in(CSV))])

VIEWS: tuple[tuple[str, View], ...] = (
    ("loads", plan_views.read_plan_loads),
    ("stock", plan_views.read_plan_stock),
    ("caches", plan_views.read_plan_caches),
    ("manifest", plan_views.read_plan_manifest),
    ("cautions", plan_views.read_plan_cautions),
    ("load-sheet", plan_papers.read_plan_load_sheet),
    ("purchases", plan_papers.read_plan_purchases),
    ("bags", plan_papers.read_plan_bags),
)


def _table(view: View) -> Callable[[Wiring, str, bytes], Response]:
    def read(wiring: Wired, plan_id: PlanId, mark: Mark) -> Response:
        return view(wiring, plan_id, CSV, mark)

    return read


for _name, _view in VIEWS:
    router.add_api_route(
        f"/v1/plans/{{plan_id}}/{_name}.csv",
        _table(_view),
        methods=["GET"],
        operation_id=f"read_plan_{_name.replace('-', '_')}_csv",
        summary=f"Read the {_name.replace('-', ' ')} of a plan as CSV",
        description=f"The same table as `/v1/plans/{{plan_id}}/{_name}` gives for `text/csv`.",
        response_class=Response,
        responses={
            200: {"description": "The table.", "content": {CSV: {"schema": {"type": "string"}}}},
            **VIEW_PROBLEMS,
        },
    )
