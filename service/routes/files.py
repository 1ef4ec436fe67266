"""Reading files that people already have: the parts of a request that they give."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.examples import SMALLEST_GEAR_LIST, SMALLEST_ROSTER, SMALLEST_TRACK
from api_schema.list_file_answer import GearListFileAnswer, RosterFileAnswer
from api_schema.route_file_answer import RouteFileAnswer
from service.files.order import FileKind, Order
from service.http.answers import JSON_ONLY, problems, written_answer
from service.http.file_body import received_file, takes_file
from service.wiring import Wired, Wiring

router = APIRouter(tags=["files"], dependencies=[JSON_ONLY])

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
SHEET_TYPES = ("text/csv", WORKBOOK, "application/octet-stream")
_DESCRIBED_TYPES = ("text/csv", "application/octet-stream")
"""Those in the description; programs that test by it can send no workbook."""
TRACK_TYPES = ("application/gpx+xml", "application/octet-stream", "application/xml", "text/xml")

_PROBLEMS = problems(
    "body_too_slow",
    "body_too_large",
    "unsupported_media_type",
    "invalid_request",
    "file_too_costly",
    "readers_busy",
    "shutting_down",
)
_SHEETS = (
    "The body is a CSV file (UTF-8) or a workbook (.xlsx, also under its own media type). Columns "
    "are found by their names, in any order; a unit stands in the header or in the cell. If cells "
    "cannot be read, the answer lists all of them with sheet, row, column and header. The answer "
    "lists what was assumed."
)

FileName = Annotated[
    str,
    Query(
        alias="file",
        description="The name of the file. Faults repeat it.",
        min_length=1,
        max_length=120,
        examples=["gear.xlsx"],
    ),
]
SheetName = Annotated[
    str | None,
    Query(
        alias="sheet",
        description="The sheet to read. If not given, the one whose header has most known names.",
        min_length=1,
        max_length=31,
    ),
]


@router.post(
    "/v1/files/gear-list",
    operation_id="read_gear_list_file",
    summary="Read a gear list from a file",
    description=(
        "Gives the `gear` and `personal_kits` of a request. A name and a mass for each item are "
        f"enough. {_SHEETS}"
    ),
    response_model=GearListFileAnswer,
    responses=_PROBLEMS,
    openapi_extra=takes_file(_DESCRIBED_TYPES, SMALLEST_GEAR_LIST),
)
async def read_gear_list_file(
    request: Request, wiring: Wired, file: FileName = "the file", sheet: SheetName = None
) -> Response:
    """A gear list as a request takes it."""
    return await _read(request, wiring, "gear-list", file, sheet)


@router.post(
    "/v1/files/roster",
    operation_id="read_roster_file",
    summary="Read a roster from a file",
    description=(
        "Gives the `roster` of a request. A name and a pack cap for each person are enough. "
        f"{_SHEETS}"
    ),
    response_model=RosterFileAnswer,
    responses=_PROBLEMS,
    openapi_extra=takes_file(_DESCRIBED_TYPES, SMALLEST_ROSTER),
)
async def read_roster_file(
    request: Request, wiring: Wired, file: FileName = "the file", sheet: SheetName = None
) -> Response:
    """A roster as a request takes it."""
    return await _read(request, wiring, "roster", file, sheet)


@router.post(
    "/v1/files/route",
    operation_id="read_route_file",
    summary="Read a route from a GPX file",
    description=(
        "Gives the `route` of a request: places and legs with distance, ascent, descent and "
        "steepest angle. Waypoints within 250 m of the track cut it into legs. Without them each "
        "track is a leg. Without a track the legs go straight from waypoint to waypoint. The "
        "answer says how the elevations were smoothed and what was assumed."
    ),
    response_model=RouteFileAnswer,
    responses=_PROBLEMS,
    openapi_extra=takes_file(TRACK_TYPES, SMALLEST_TRACK),
)
async def read_route_file(request: Request, wiring: Wired, file: FileName = "the file") -> Response:
    """A route as a request takes it."""
    return await _read(request, wiring, "route", file)


async def _read(
    request: Request, wiring: Wiring, kind: FileKind, file: str, sheet: str | None = None
) -> Response:
    settings = wiring.settings
    async with received_file(
        request,
        media_types=TRACK_TYPES if kind == "route" else SHEET_TYPES,
        limit_bytes=settings.file_limit_bytes,
        limit_seconds=settings.body_seconds,
    ) as path:
        answer = await run_in_threadpool(wiring.file_reader.read, Order(kind, path, file, sheet))
    return written_answer(answer)
