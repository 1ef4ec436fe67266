"""Answers for a browser: which addresses have a page besides their JSON, and how it is sent."""

from typing import Annotated, Any, Final, Literal

from fastapi import Depends, Query
from starlette.responses import Response

from api_schema.problem_details import ProblemDetails
from service.http.answers import answers_in
from service.http.negotiation import HTML, JSON
from service.routes.view_formats import VARY
from service.screens.frame import Screen
from service.screens.refusal import refusal_screen

PAGE_TOO: Final[dict[int | str, dict[str, Any]]] = {
    200: {"content": {HTML: {"schema": {"type": "string"}}}}
}


def _format(
    accepted: Annotated[str, Depends(answers_in(JSON, HTML))],
    asked: Annotated[
        Literal["json", "html"] | None,
        Query(alias="format", description="Overrides the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"json": JSON, "html": HTML, None: accepted}[asked]


MediaType = Annotated[str, Depends(_format)]


def screen_answer(made: Screen) -> Response:
    """A screen with the policy that it was made for."""
    headers = {**VARY, "Content-Security-Policy": made.policy}
    return Response(made.html, media_type=HTML, headers=headers)


def problem_page(problem: ProblemDetails) -> Response:
    """A problem as a page for a browser."""
    return screen_answer(refusal_screen(problem))
