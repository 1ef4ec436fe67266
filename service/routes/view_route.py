"""What every view of a solved plan has in common: its address, its two formats, its cautions."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel
from starlette.responses import Response

from service.http.answers import json_answer
from service.http.negotiation import CSV
from service.reports.tables import Table
from service.routes.plan_documents import find_solved_outcome
from service.routes.plans import PlanId
from service.routes.view_formats import CSV_TOO, VARY, VIEW_PROBLEMS, Mark, MediaType, csv_answer
from service.wiring import Wired, Wiring


@dataclass(frozen=True, slots=True)
class Seen:
    """What a view shows: the parts of its JSON answer of its own, and how its table is made."""

    parts: dict[str, Any]
    table: Callable[[], Table]


ReadView = Callable[[Wiring, str, dict[str, Any]], Seen]
"""Reads a view from the name of a plan and its solved outcome."""
View = Callable[[Wiring, str, str, bytes], Response]
"""Answers with a view: wiring, name of the plan, media type, what stands before the CSV."""


def view_route(
    router: APIRouter, name: str, *, summary: str, description: str, model: type[BaseModel]
) -> Callable[[ReadView], View]:
    """Serve a view at /v1/plans/{plan_id}/NAME, as JSON and as CSV, under read_plan_NAME."""

    def served(read: ReadView) -> View:
        def answer(wiring: Wired, plan_id: PlanId, media_type: MediaType, mark: Mark) -> Response:
            outcome = find_solved_outcome(wiring, plan_id)
            seen = read(wiring, plan_id, outcome)
            if media_type == CSV:
                file_name = f"{plan_id}-{name}.csv"
                return csv_answer(seen.table(), outcome, file_name=file_name, mark=mark)
            whole = model(
                plan_id=plan_id,
                reference=outcome["reference"],
                cautions=outcome["cautions"],
                **seen.parts,
            )
            return json_answer(whole, headers=VARY)

        router.add_api_route(
            f"/v1/plans/{{plan_id}}/{name}",
            answer,
            methods=["GET"],
            operation_id=f"read_plan_{name.replace('-', '_')}",
            summary=summary,
            description=description,
            response_model=model,
            responses={**CSV_TOO, **VIEW_PROBLEMS},
        )
        return answer

    return served
