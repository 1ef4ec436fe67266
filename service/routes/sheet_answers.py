"""Sheets to print, answered as HTML or as PDF: how they are asked for and how they are sent."""

from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from fastapi import Depends, Query
from starlette.responses import Response

from service.http.answers import answers_in
from service.http.negotiation import HTML
from service.pages.facts import UnitSystem
from service.pages.render import PaperName, RenderedPages
from service.pages.sections import SheetName
from service.wiring import Wiring

PDF: Final = "application/pdf"
SHEETS: Final[dict[int | str, dict[str, Any]]] = {
    200: {
        "content": {
            HTML: {"schema": {"type": "string"}},
            PDF: {"schema": {"type": "string", "contentMediaType": PDF}},
        }
    }
}
PRINTING = ("file_too_costly", "readers_busy", "shutting_down")
"""What can go wrong while PDF is made."""

Paper = Annotated[PaperName, Query(description="The size of the paper.")]


@dataclass(frozen=True, slots=True)
class Layout:
    """How the pages of a plan are asked for: paper, units, and which sheets."""

    paper: PaperName
    units: UnitSystem
    sheets: frozenset[str] | None


def _layout(
    paper: Paper = "a4",
    units: Annotated[UnitSystem, Query(description="The units of all quantities.")] = "metric",
    sheet: Annotated[
        list[SheetName] | None, Query(description="Only these sheets.", max_length=20)
    ] = None,
) -> Layout:
    return Layout(paper, units, None if sheet is None else frozenset(sheet))


AskedLayout = Annotated[Layout, Depends(_layout)]


def _format(
    accepted: Annotated[str, Depends(answers_in(HTML, PDF))],
    asked: Annotated[
        Literal["html", "pdf"] | None,
        Query(alias="format", description="Overrides the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"html": HTML, "pdf": PDF, None: accepted}[asked]


SheetsType = Annotated[str, Depends(_format)]


def sheets_answer(wiring: Wiring, made: RenderedPages, media_type: str, *, name: str) -> Response:
    """The sheets in the form that was asked for."""
    headers = {"Vary": "Accept"}
    if media_type == PDF:
        headers["Content-Disposition"] = f'inline; filename="{name}.pdf"'
        written = wiring.pdf_printer.print_pdf(made.html)
        return Response(written, media_type=PDF, headers=headers)
    headers["Content-Security-Policy"] = made.policy
    return Response(made.html, media_type=HTML, headers=headers)
