"""A number of a request is a plain JSON number: no truth value and no string passes for one."""

import importlib
import json
import pkgutil
from collections.abc import Iterator

import pytest
from pydantic import TypeAdapter, ValidationError

import api_schema
from api_schema.strict import StrictModel


def _sent() -> list[type[StrictModel]]:
    """Every object that callers send; what the service answers is named so."""
    for module in pkgutil.iter_modules(api_schema.__path__):
        importlib.import_module(f"api_schema.{module.name}")
    found, seen = [StrictModel], set()
    while found:
        model = found.pop()
        if model not in seen:
            seen.add(model)
            found += model.__subclasses__()
    ours = (model for model in seen if model.__module__.startswith("api_schema."))
    told = ("Answer", "ProblemDetails", "FaultEntry")
    return sorted((m for m in ours if not m.__name__.endswith(told)), key=lambda m: m.__name__)


def _kinds(schema: dict) -> set[str]:
    parts = [schema, *schema.get("anyOf", ())]
    return {part["type"] for part in parts if isinstance(part.get("type"), str)}


def _asked() -> Iterator[tuple[type[StrictModel], str, bool]]:
    """Each field that takes a number, and each that takes a list of numbers."""
    for model in _sent():
        for name, field in model.model_fields.items():
            schema = TypeAdapter(field.rebuild_annotation()).json_schema()
            for is_list, kinds in (
                (False, _kinds(schema)),
                (True, _kinds(schema.get("items", {}))),
            ):
                if kinds & {"integer", "number"}:
                    yield model, name, is_list


NUMBERS = list(_asked())


@pytest.mark.parametrize(
    ("model", "name", "is_list"), NUMBERS, ids=lambda one: getattr(one, "__name__", str(one))
)
def test_a_number_is_no_truth_value_and_no_string(model, name, is_list):
    """True, false, "1", "0.5" and "30" are refused, whatever the limits of the field."""
    asked = TypeAdapter(model.model_fields[name].rebuild_annotation())
    for wrong in (True, False, "1", "0.5", "30"):
        sent = [wrong] if is_list else wrong
        with pytest.raises(ValidationError):
            asked.validate_python(sent)
        with pytest.raises(ValidationError):
            asked.validate_json(json.dumps(sent))


def test_there_are_numbers_to_ask_about():
    """The list has the numbers of plans, calendars and trials."""
    assert len(NUMBERS) > 20
    assert {"CalendarsRequest", "StressTestRequest"} <= {model.__name__ for model, _, _ in NUMBERS}
