"""The formats of views of a plan: JSON, or CSV whose rows point to the plan's cautions."""

from typing import Annotated, Any, Final, Literal

from fastapi import Depends, Query
from starlette.responses import Response

from service.http.answers import answers_in, problems
from service.http.negotiation import CSV, JSON
from service.reports.tables import BYTE_ORDER_MARK, Table

VIEW_PROBLEMS: Final = problems(
    "not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome", "invalid_request"
)
VARY: Final = {"Vary": "Accept"}
CSV_TOO: Final[dict[int | str, dict[str, Any]]] = {
    200: {"content": {CSV: {"schema": {"type": "string"}}}}
}


def _format(
    accepted: Annotated[str, Depends(answers_in(JSON, CSV))],
    asked: Annotated[
        Literal["json", "csv"] | None,
        Query(alias="format", description="Overrides the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"json": JSON, "csv": CSV, None: accepted}[asked]


MediaType = Annotated[str, Depends(_format)]


def _mark(
    byte_order_mark: Annotated[  # noqa: FBT002 - a parameter of a query has a name
        bool,
        Query(
            description="Whether CSV begins with a byte-order mark, which some spreadsheets need."
        ),
    ] = False,
) -> bytes:
    return BYTE_ORDER_MARK if byte_order_mark else b""


Mark = Annotated[bytes, Depends(_mark)]
"""What stands before the CSV: the byte-order mark if it is asked for."""


def csv_answer(
    table: Table, outcome: dict[str, Any], *, file_name: str, mark: bytes = b""
) -> Response:
    """A view whose every row points to the plan's cautions by their ids."""
    ids = " ".join(caution["caution_id"] for caution in outcome["cautions"])
    headers = {**VARY, "Content-Disposition": f'attachment; filename="{file_name}"'}
    content = mark + table.with_last("cautions", ids).as_csv()
    return Response(content, media_type=CSV, headers=headers)
