"""Calendars worth having for a route, under rules on carries and days of rest."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from fastapi import APIRouter, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.calendars_answer import CalendarsAnswer
from api_schema.examples import SMALLEST_CALENDARS
from service.errors import RequestFaults
from service.http.answers import EVERY_BODY, problems, takes_json, written_answer
from service.http.negotiation import HTML
from service.http.request_body import read_json_body
from service.http.strict_json import read_json_object
from service.routes.library_use import read_order_of, whole_body
from service.routes.screen_answers import PAGE_TOO, MediaType, screen_answer
from service.screens.calendars_screen import calendars_screen
from service.translate.read.around_request import faults_around_request
from service.wiring import Wired, Wiring

router = APIRouter(tags=["calendars"])

_LEAST, _MOST, _OTHERWISE = 2, 120, 60
"""Ends of `seconds`, and what it is where the body does not say; the child judges the body."""


@router.post(
    "/v1/calendars",
    operation_id="find_calendars",
    summary="Find calendars",
    description=(
        "The calendars worth having: the least peak load for each number of days, and what is "
        "proven about it. The service finds them by bounds and by solving. It chooses carries on "
        "each leg and days without travel within the rules given. Moves, back-carries and "
        "everything after the last move stay. Each calendar can be sent as the `calendar` of a "
        "request. Nothing is stored. Whoever asks for HTML gets a page with a picture of days "
        "against the peak load."
    ),
    response_model=CalendarsAnswer,
    responses={**PAGE_TOO, **problems(*EVERY_BODY, "too_busy", "too_much_work")},
    openapi_extra=takes_json("CalendarsRequest", {"smallest": SMALLEST_CALENDARS}),
)
async def find_calendars(request: Request, wiring: Wired, media_type: MediaType) -> Response:
    """The trade-off of days against the peak load."""
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
    )
    return await run_in_threadpool(_ask, wiring, body, media_type)


def question_seconds(wiring: Wiring, document: Mapping[str, Any]) -> float:
    """How long a child may work on a body that may say so itself, as far as it is granted [s]."""
    told = document.get("seconds", _OTHERWISE)
    seconds = told if isinstance(told, int) and _LEAST <= told <= _MOST else _LEAST
    return min(seconds, wiring.settings.question_limit_seconds)


def _ask(wiring: Wiring, body: bytes, media_type: str) -> Response:
    whole = whole_body(
        wiring, body, within="request", read_rest=lambda document: _read_rest(wiring, document)
    )
    document = read_json_object(whole.body)
    question = {"question": "calendars", "body": document}
    with whole.faults_as_sent():
        seconds = question_seconds(wiring, document)
        answer = wiring.questions.ask(question, seconds=seconds)
    if media_type == HTML:
        return screen_answer(calendars_screen(CalendarsAnswer.model_validate_json(answer)))
    return written_answer(answer)


def _read_rest(wiring: Wiring, document: dict[str, Any]) -> None:
    """Read a question whose request is not whole: nothing is searched for, and no turn taken."""
    around = faults_around_request(document)
    try:
        read_order_of(wiring, document["request"])
    except RequestFaults as error:
        within = (replace(f, pointer=f"/request{f.pointer}") for f in error.faults)
        raise RequestFaults((*around, *within), left_out=error.left_out) from None
    if around:
        raise RequestFaults(around)
