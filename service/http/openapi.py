"""The OpenAPI 3.1 description of the service; `service.write_openapi` writes it to a file."""

from typing import Any

from fastapi.openapi.utils import get_openapi
from pydantic.json_schema import models_json_schema
from starlette.routing import BaseRoute

from api_schema.calendars_request import CalendarsRequest
from api_schema.comparison import ComparisonRequest
from api_schema.library_entry import (
    GearListToStore,
    MenuToStore,
    RosterToStore,
    RouteToStore,
)
from api_schema.plan_check import PlanCheckRequest
from api_schema.plan_events import PlanEventAnswer
from api_schema.plan_request import PlanRequest
from api_schema.problem_details import ProblemDetails
from api_schema.release import ReleaseRequest
from api_schema.replan import ReplanRequest
from api_schema.replan_answer import MessageRequest
from api_schema.replan_calendars import ReplanCalendarsRequest
from api_schema.report import TripReportRequest
from api_schema.stress_request import StressTestRequest
from api_schema.webhook import PlanFinalWebhook
from service.errors import PROBLEMS
from service.http.answers import problems
from service.http.described_headers import add_conditions, add_shared_headers
from service.http.negotiation import JSON
from service.http.sent_schemas import open_answers, say_defaults_in_words
from service.version import VERSION

_DESCRIPTION = """Plans the loads of expeditions that carry everything themselves.

A quantity in a request is a string with a number, one space and a unit, for example `"27 kg"`.
A number in an answer has its unit in the name of the field. A refusal is a problem document
(RFC 9457) that lists all faults of the request at once. Every answer has an `X-Request-Id`, which
is in the log too. It is your own if you send one.

[The glossary](/docs/glossary) explains the words, and [the rules](/docs/rules) say what is checked.

A plan is advice. Local rules, the land manager, the pilot, the physician and the licensed guide
decide.
"""


TAGS = {
    "plans": "Ask for plans, follow them, change, release and delete them.",
    "views of a plan": "Parts of a plan as JSON, tables, pictures and workbooks.",
    "papers of a plan": "Lists for packing, buying, labelling and carrying.",
    "plan checks": "Check a plan without solving.",
    "requirements": "What an expedition needs, before anything is solved.",
    "calendars": "Find calendars that make the loads lower.",
    "comparisons": "Several variants of one request side by side.",
    "re-plans": "Plan the rest from what was counted on the way.",
    "after the expedition": "Compare what was planned with what was used.",
    "stress tests": "See what a storm or a loss would do to a plan.",
    "messages": "Short messages from the field, and their answers.",
    "library": "Store routes, gear lists, menus and rosters in versions, and use them in requests.",
    "files": "Read gear lists, rosters and routes from files.",
    "facts": "Rules, units, limits and kinds of problems.",
    "operation": "Health and readiness.",
    "administration": "Figures for those who run the service.",
}
"""What each group of operations is for. A test holds them to the routes."""

OPEN_TAGS = frozenset({"facts", "operation"})
"""What everybody may read without a key."""

_WEBHOOKS = {
    "plan_final": {
        "post": {
            "operationId": "plan_final",
            "tags": ["plans"],
            "summary": "Receive a note that a plan is final",
            "description": "Sent to the `webhook_url` of the request, at least once, with the same "
            "`webhook-id` at every attempt. `webhook-signature` has one or more signatures, "
            "separated by spaces. Each is `v1,` and a code in base64. The code is the "
            "HMAC-SHA-256, with your secret, of the id, the time and the body, joined by dots. "
            "Refuse a time that is more than five minutes off. Answer with a status from 200 to "
            "299 within ten seconds.",
            "parameters": [
                {
                    "name": name,
                    "in": "header",
                    "required": True,
                    "description": words,
                    "schema": {"type": "string"},
                }
                for name, words in (
                    ("webhook-id", "The id of the webhook."),
                    ("webhook-timestamp", "When it was sent, in seconds since 1970-01-01 UTC."),
                    ("webhook-signature", "The signatures."),
                )
            ],
            "requestBody": {
                "required": True,
                "content": {JSON: {"schema": {"$ref": "#/components/schemas/PlanFinalWebhook"}}},
            },
            "responses": {
                "200": {"description": "Heard."},
                "4XX": {"description": "Refused. The service tries again later."},
            },
            "security": [],
        }
    }
}


def openapi_document(routes: list[BaseRoute]) -> dict[str, Any]:
    """The description of these routes, with the bodies that they read by themselves."""
    document = get_openapi(
        title="Haulwright",
        version=VERSION,
        openapi_version="3.1.0",
        summary="Load planning for expeditions on cold, glaciated mountains",
        description=_DESCRIPTION,
        contact={"name": "The people who run this service"},
        tags=[{"name": name, "description": words} for name, words in TAGS.items()],
        license_info={"name": "MIT", "identifier": "MIT"},
        servers=[{"url": "/"}],
        routes=routes,
    )
    _leave_out_default_faults(document)
    _add_keys(document)
    add_conditions(document)
    add_shared_headers(document)
    _, described = models_json_schema(
        [
            (PlanRequest, "validation"),
            (PlanCheckRequest, "validation"),
            (CalendarsRequest, "validation"),
            (ComparisonRequest, "validation"),
            (StressTestRequest, "validation"),
            (ReplanRequest, "validation"),
            (ReplanCalendarsRequest, "validation"),
            (MessageRequest, "validation"),
            (TripReportRequest, "validation"),
            (ReleaseRequest, "validation"),
            (RouteToStore, "validation"),
            (GearListToStore, "validation"),
            (MenuToStore, "validation"),
            (RosterToStore, "validation"),
            (ProblemDetails, "serialization"),
            (PlanEventAnswer, "serialization"),
            (PlanFinalWebhook, "serialization"),
        ],
        ref_template="#/components/schemas/{model}",
    )
    schemas = document["components"]["schemas"]
    for name, schema in described["$defs"].items():
        if schemas.setdefault(name, schema) != schema:
            raise ValueError(f"two different schemas have the name {name}")
    document["webhooks"] = _WEBHOOKS
    schemas["ProblemDetails"]["properties"]["code"]["enum"] = sorted(PROBLEMS)
    open_answers(document)
    say_defaults_in_words(document)
    document["components"]["schemas"] = dict(sorted(schemas.items()))
    return document


def _add_keys(document: dict[str, Any]) -> None:
    """Say which operations take a key; none is needed where the service asks for none."""
    document["components"]["securitySchemes"] = {
        "key": {
            "type": "http",
            "scheme": "bearer",
            "description": "A key of one tenant, with the scopes read, plan or administer. On "
            "localhost no key is needed.",
        }
    }
    for path in document["paths"].values():
        for operation in path.values():
            is_open = bool(OPEN_TAGS.intersection(operation["tags"]))
            operation["security"] = [] if is_open else [{"key": []}, {}]
            if not is_open:
                operation["responses"] |= {
                    str(status): answer
                    for status, answer in problems("key_needed", "scope_needed").items()
                    if status in {401, 403}
                }


def _leave_out_default_faults(document: dict[str, Any]) -> None:
    """Remove the shape of faults that the framework documents and this service never sends."""
    default = {"$ref": "#/components/schemas/HTTPValidationError"}
    for path in document["paths"].values():
        for operation in path.values():
            content = operation["responses"].get("422", {}).get("content", {})
            if content.get("application/json", {}).get("schema") == default:
                del operation["responses"]["422"]
    for name in ("HTTPValidationError", "ValidationError"):
        document["components"]["schemas"].pop(name, None)
