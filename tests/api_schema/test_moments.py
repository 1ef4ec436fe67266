"""Times on the wire have milliseconds, wherever they stand."""

import importlib
import json
import pkgutil
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import get_args

from pydantic import BaseModel

import api_schema
from api_schema.replan_answer import LineEntryAnswer
from api_schema.report_answer import TripReportEntryAnswer

AT = datetime(2027, 3, 1, 6, 30, 0, 123456, tzinfo=UTC)


def models() -> set[type[BaseModel]]:
    """Every model of the wire."""
    return {
        one
        for found in pkgutil.iter_modules(api_schema.__path__)
        for one in vars(importlib.import_module(f"api_schema.{found.name}")).values()
        if isinstance(one, type) and issubclass(one, BaseModel)
    }


def types_in(annotation: object) -> Iterator[object]:
    """An annotation and all that it is made of."""
    yield annotation
    for part in get_args(annotation):
        yield from types_in(part)


def test_no_time_is_written_as_the_library_would():
    """Each is a `Moment`, which is rounded down to milliseconds."""
    found = models()
    assert len(found) > 100
    bare = [
        f"{model.__name__}.{name}"
        for model in found
        for name, field in model.model_fields.items()
        if datetime in types_in(field.annotation)
    ]
    assert bare == []


def test_the_line_of_plans_and_its_reports_have_milliseconds():
    """As the plans themselves."""
    entry = LineEntryAnswer(
        plan_id="a",
        former_plan_id=None,
        what_if=False,
        created_at=AT,
        state="done",
        outcome_kind=None,
        day=None,
        moment=None,
        say=[],
        unexplained=[],
        counted=None,
    )
    report = TripReportEntryAnswer(report_id="r", plan_id="a", stored_at=AT, say=[])
    assert json.loads(entry.model_dump_json())["created_at"] == "2027-03-01T06:30:00.123Z"
    assert json.loads(report.model_dump_json())["stored_at"] == "2027-03-01T06:30:00.123Z"
