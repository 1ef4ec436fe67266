"""Generic gear and starter menus, to begin a request with."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.library_answer import GearLibraryAnswer, StarterMenuAnswer, StarterMenusAnswer
from service.http.answers import JSON_ONLY, json_answer, problems
from service.http.negotiation import CSV
from service.library.as_request import GENERIC_KIT_ID, gear_document, kit_document, library_table
from service.library.menus import STARTER_MENUS
from service.library.shared_gear import SOURCE, TYPICAL
from service.routes.view_formats import Mark, MediaType

router = APIRouter(tags=["facts"])


@router.get(
    "/v1/library/gear",
    operation_id="read_gear_library",
    summary="Read the library of generic gear",
    description=(
        "Shared gear and a personal kit with typical masses. None of them was weighed. As CSV it "
        "is a gear list that `POST /v1/files/gear-list` can read. The answer to that lists what "
        "was not weighed."
    ),
    response_model=GearLibraryAnswer,
    responses={
        200: {"content": {CSV: {"schema": {"type": "string"}}}},
        **problems("invalid_request"),
    },
)
def read_gear_library(media_type: MediaType, mark: Mark) -> Response:
    """The generic gear."""
    headers = {"Vary": "Accept"}
    if media_type == CSV:
        headers["Content-Disposition"] = 'attachment; filename="gear-library.csv"'
        return Response(mark + library_table().as_csv(), media_type=CSV, headers=headers)
    answer = GearLibraryAnswer(
        masses=TYPICAL,
        source=SOURCE,
        gear=gear_document(),
        personal_kits={GENERIC_KIT_ID: kit_document()},
    )
    return json_answer(answer, headers=headers)


@router.get(
    "/v1/library/menus",
    operation_id="list_starter_menus",
    summary="List the starter menus",
    description="Menus to begin with, with typical masses. They do not say what is in the food.",
    response_model=StarterMenusAnswer,
    responses=problems(),
    dependencies=[JSON_ONLY],
)
def list_starter_menus() -> Response:
    """The starter menus."""
    menus = [
        StarterMenuAnswer(menu_id=one.menu_id, name=one.name, menu=one.document())
        for one in STARTER_MENUS
    ]
    return json_answer(StarterMenusAnswer(masses=TYPICAL, source=SOURCE, menus=menus))
