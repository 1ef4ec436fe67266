"""Figures for those who run the service, in the text format of Prometheus."""

from fastapi import APIRouter
from starlette.responses import Response

from service.http.answers import problems
from service.reports.metrics import queue_lines, stream_lines
from service.wiring import Wired

router = APIRouter(tags=["administration"])

TEXT = "text/plain; version=0.0.4; charset=utf-8"


@router.get(
    "/metrics",
    operation_id="read_metrics",
    summary="Read figures for monitoring",
    description=(
        "Figures in the text format of Prometheus: answers, their times, refusals and open streams "
        "of events of this process, and plans and stress tests of all tenants that wait, run or "
        "ended recently. "
        "Where keys are needed, use one with the scope `administer`."
    ),
    response_class=Response,
    responses={
        200: {"description": "Figures.", "content": {"text/plain": {"schema": {"type": "string"}}}},
        **problems(),
    },
)
def read_metrics(wiring: Wired) -> Response:
    """All figures of this moment."""
    lines = [
        *wiring.counts.lines(),
        *stream_lines(wiring.stream_room.opened()),
        *queue_lines(wiring.store.queue_figures()),
    ]
    return Response("\n".join(lines) + "\n", media_type=TEXT)
