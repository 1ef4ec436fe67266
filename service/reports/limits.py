"""The sizes up to which parts of a request are taken, read from its published schema."""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from api_schema.plan_request import PlanRequest
from api_schema.reference import LimitAnswer
from api_schema.route import RouteRequest

_PARTS: tuple[tuple[type[BaseModel], str], ...] = ((PlanRequest, ""), (RouteRequest, "route."))


def request_limit_entries() -> list[LimitAnswer]:
    """One entry for each list of a request: its name, and the most entries that it may have."""
    return [
        LimitAnswer(
            limit_id=f"{prefix}{name}",
            value=most,
            unit="entries",
            description=f"Most entries of `{prefix}{name}` in a request.",
        )
        for model, prefix in _PARTS
        for name, most in _longest(model.model_json_schema()["properties"])
    ]


def _longest(properties: dict[str, dict[str, Any]]) -> Iterator[tuple[str, int]]:
    for name, schema in properties.items():
        for form in (schema, *schema.get("anyOf", ())):
            if "maxItems" in form:
                yield name, form["maxItems"]
