"""Answers for a browser: which addresses have a page besides their JSON, and how it is sent."""

from typing import Annotated, Any, Final, Literal

from fastapi import Depends, Query
from starlette.responses import Response

from api_schema.problem_details import ProblemDetails
from service.http.answers import answers_in
from service.http.negotiation import CSV, HTML, JSON
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


def _format_or_table(
    accepted: Annotated[str, Depends(answers_in(JSON, CSV, HTML))],
    asked: Annotated[
        Literal["json", "csv", "html"] | None,
        Query(alias="format", description="Overrides the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"json": JSON, "csv": CSV, "html": HTML, None: accepted}[asked]


MediaTypeOrTable = Annotated[str, Depends(_format_or_table)]
"""The same for an address that has a table as CSV, too."""


def screen_answer(made: Screen) -> Response:
    """A screen with the policy that it was made for."""
    headers = {**VARY, "Content-Security-Policy": made.policy}
    return Response(made.html, media_type=HTML, headers=headers)


def problem_page(problem: ProblemDetails) -> Response:
    """A problem as a page for a browser."""
    return screen_answer(refusal_screen(problem))
