"""The pages that show the API to people; every script they need is served from here."""

from importlib.resources import as_file, files

from fastapi import APIRouter, FastAPI, Request
from fastapi.openapi.docs import get_redoc_html, get_swagger_ui_html
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.staticfiles import StaticFiles

from service.http.answers import written_answer
from service.reports.glossary import glossary_page
from service.reports.messages import messages_page
from service.reports.questions import questions_page
from service.reports.rules import rules_page

router = APIRouter(include_in_schema=False)
_ICON = files("service.routes") / "icon.svg"
_ICON_ADDRESS = "/icon.svg"

_ASSETS = "/docs-assets"
_DESCRIPTION = "/openapi.json"


def mount_assets(app: FastAPI) -> None:
    """Serve the scripts and styles that come with the package fastapi-offline."""
    with as_file(files("fastapi_offline") / "static") as folder:
        app.mount(_ASSETS, StaticFiles(directory=folder))


@router.get(_ICON_ADDRESS)
def show_icon() -> Response:
    """The icon of the pages: a loaded sled on a slope."""
    return Response(_ICON.read_bytes(), media_type="image/svg+xml")


@router.get(_DESCRIPTION)
def show_description(request: Request) -> Response:
    """The description of the service, a megabyte that is written once."""
    state = request.app.state
    if not hasattr(state, "written_description"):
        state.written_description = bytes(JSONResponse(request.app.openapi()).body)
    return written_answer(state.written_description)


@router.get("/docs")
def show_docs() -> HTMLResponse:
    """A page to read the API and to try it."""
    return get_swagger_ui_html(
        openapi_url=_DESCRIPTION,
        title="Haulwright API",
        swagger_js_url=f"{_ASSETS}/swagger-ui-bundle.js",
        swagger_css_url=f"{_ASSETS}/swagger-ui.css",
        swagger_favicon_url=_ICON_ADDRESS,
    )


@router.get("/docs/rules")
def show_rules() -> HTMLResponse:
    """The rulebook as a page to read and to print; it needs no script."""
    return HTMLResponse(rules_page())


@router.get("/docs/glossary")
def show_glossary() -> HTMLResponse:
    """The words of the trade and of optimisation as a page to read and to print."""
    return HTMLResponse(glossary_page())


@router.get("/docs/questions")
def show_questions() -> HTMLResponse:
    """The questions of planning with the call for each, to read and to print."""
    return HTMLResponse(questions_page())


@router.get("/docs/messages")
def show_messages() -> HTMLResponse:
    """The code of short messages as a page to print."""
    return HTMLResponse(messages_page())


@router.get("/redoc")
def show_redoc() -> HTMLResponse:
    """A page to read the API at length."""
    return get_redoc_html(
        openapi_url=_DESCRIPTION,
        title="Haulwright API",
        redoc_js_url=f"{_ASSETS}/redoc.standalone.js",
        redoc_favicon_url=_ICON_ADDRESS,
        with_google_fonts=False,
    )
