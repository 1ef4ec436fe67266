"""For those who run the service."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.operation import HealthAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, json_answer, problems
from service.version import VERSION
from service.wiring import Wired

router = APIRouter(tags=["operation"], dependencies=[JSON_ONLY])


@router.get(
    "/healthz",
    operation_id="read_health",
    summary="Read the service's health",
    description="200 while the storage answers and every worker runs, 503 otherwise.",
    response_model=HealthAnswer,
    responses=problems("shutting_down"),
)
def read_health(wiring: Wired) -> Response:
    """The service's health."""
    if not wiring.engine.is_alive():
        raise ServiceProblem("shutting_down", headers={"Retry-After": "5"})
    wiring.store.check()
    return json_answer(HealthAnswer(status="ok", version=VERSION))
