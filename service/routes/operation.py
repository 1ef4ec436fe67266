"""For those who run the service."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.operation import HealthAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, json_answer, problems
from service.version import VERSION
from service.wiring import Wired, Wiring

router = APIRouter(tags=["operation"], dependencies=[JSON_ONLY])

# Both routes run in the event loop and only look at what is known already, so that they answer at
# once however busy the threads are.


@router.get(
    "/healthz",
    operation_id="read_health",
    summary="Read the service's health",
    description="200 while the storage takes writes and every worker runs, 503 otherwise.",
    response_model=HealthAnswer,
    responses=problems("shutting_down"),
)
async def read_health(wiring: Wired) -> Response:
    """The service's health."""
    return _health(wiring)


@router.get(
    "/readyz",
    operation_id="read_readiness",
    summary="Read whether the service takes requests",
    description=(
        "200 while the service answers and stores, 503 otherwise. It is not ready while it is "
        "loading or stopping, or while its database is gone, locked, full or broken. A full queue "
        "does not count: plans can be read then, and new ones are refused with `queue_full`."
    ),
    response_model=HealthAnswer,
    responses=problems("starting", "shutting_down"),
)
async def read_readiness(wiring: Wired) -> Response:
    """Whether requests should come here."""
    if wiring.engine.is_stopping():
        raise ServiceProblem("shutting_down", headers={"Retry-After": "5"})
    if not wiring.desks.is_ready():
        raise ServiceProblem("starting", headers={"Retry-After": "2"})
    return _health(wiring)


def _health(wiring: Wiring) -> Response:
    if not wiring.engine.is_alive():
        raise ServiceProblem("shutting_down", headers={"Retry-After": "5"})
    if not wiring.lookout.storage_answers():
        raise ServiceProblem("storage_unavailable", headers={"Retry-After": "5"})
    return json_answer(HealthAnswer(status="ok", version=VERSION))
