"""The numbers and quantities of a request by the schema: which fields there are, and their ends."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

Schema = dict[str, Any]
Field = tuple[str, str]
"""A part of the schema and the name of a field in it; `*` for what has names of its own."""

_NUMBERS = {"integer", "number"}
_STEP = Decimal("0.000001")
"""The smallest step that a quantity can be written in."""


@cache
def schemas() -> dict[str, Schema]:
    """All parts of the published schema."""
    path = Path(__file__).parents[2] / "api_schema/openapi.v1.json"
    found: dict[str, Schema] = json.loads(path.read_text(encoding="utf-8"))["components"]["schemas"]
    return found


def _forms(schema: Schema) -> Iterator[Schema]:
    """A schema and all that it may be instead."""
    yield schema
    for other in ("anyOf", "oneOf", "allOf"):
        for form in schema.get(other, ()):
            yield from _forms(form)
    if "$ref" in schema:
        yield from _forms(schemas()[schema["$ref"].rpartition("/")[2]])


def _parts(name: str, schema: Schema) -> Iterator[tuple[str, str, Schema]]:
    """The fields right below a schema: the part that they are in, their name and their schema."""
    for form in _forms(schema):
        part = form.get("title", name) if "properties" in form else name
        for field, its_schema in form.get("properties", {}).items():
            yield part, field, its_schema
        named = (*form.get("patternProperties", {}).values(), form.get("additionalProperties"))
        for its_schema in named:
            if isinstance(its_schema, dict):
                yield name, "*", its_schema


def _is_measured(schema: Schema) -> bool:
    return any(
        form.get("type") in _NUMBERS or ("x-least" in form and form.get("type") == "string")
        for form in _forms(schema)
    )


def measured_fields() -> set[Field]:
    """Every field of a request that is a number or a quantity."""
    found: set[Field] = set()
    seen: set[str] = set()

    def below(name: str, schema: Schema) -> None:
        for form in _forms(schema):
            if "items" in form:
                below(name, form["items"])
        for part, field, its_schema in _parts(name, schema):
            if _is_measured(its_schema):
                found.add((part, field))
            key = f"{part}.{field}"
            if key not in seen:
                seen.add(key)
                below(field if field != "*" else name, its_schema)

    below("PlanRequest", schemas()["PlanRequest"])
    return found


def field_at(place: tuple[str | int, ...]) -> tuple[Field, list[Schema]]:
    """The field of a place in a request, and the forms that the schema allows there."""
    name, nodes = "PlanRequest", [schemas()["PlanRequest"]]
    field: Field = ("", "")
    for step in place:
        if isinstance(step, int):
            nodes = [f["items"] for node in nodes for f in _forms(node) if "items" in f]
            continue
        found = [p for node in nodes for p in _parts(name, node) if p[1] in {step, "*"}]
        own = [p for p in found if p[1] == step] or found
        field = own[0][0], own[0][1]
        name, nodes = (name if field[1] == "*" else step), [schema for _, _, schema in own]
    return field, [form for node in nodes for form in _forms(node)]


def ends(place: tuple[str | int, ...], value: object) -> Iterator[object]:
    """The least and the most that the schema gives a field, with their neighbours."""
    for form in field_at(place)[1]:
        if isinstance(value, str) and "x-least" in form:
            for end in (form["x-least"], form["x-most"]):
                number, _, unit = end.partition(" ")
                for at in (Decimal(number) - _STEP, Decimal(number), Decimal(number) + _STEP):
                    yield f"{_written(at)} {unit}"
        elif not isinstance(value, str) and form.get("type") in _NUMBERS:
            step = 1 if form["type"] == "integer" else 1e-6
            limits = ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum")
            for limit in (form[name] for name in limits if name in form):
                yield from (limit - step, limit, limit + step)


def _written(number: Decimal) -> str:
    text = f"{number:f}"
    return re.sub(r"\.?0+$", "", text) if "." in text else text
