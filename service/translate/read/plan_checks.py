"""A plan sent to be checked, read back into the solver's form.

A caller needs to edit `trips[].loads[]` only: moving an entry from one pack to another keeps its
mass with it. Totals and shares of a plan that was sent are let pass and worked out again.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from pydantic import ValidationError

from api_schema.edited_plan import EditedPlan
from service.errors import Fault, RequestFaults
from service.translate.read.edited_plan import PlanReader
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.read.resolving import resolved
from service.translate.read.wire_faults import wire_faults
from solver.checker.ledger.facts import read_facts
from solver.plan import Plan

_Read = TypeVar("_Read")


def read_plan_check(document: dict[str, object]) -> tuple[ReadRequest, Plan]:
    """The request and the plan of a document; raises RequestFaults with every fault of both."""
    faults = [
        Fault(f"/{field}", "unknown_field", "There is no such field here: request and plan.")
        for field in document
        if field not in {"request", "plan"}
    ]
    read = _part(document, "request", read_plan_request, faults)
    edited = _part(document, "plan", _read_edited, faults)
    if read is None or edited is None:
        raise RequestFaults(resolved(faults, document))
    plan = PlanReader(read_facts(read.problem, read.timeline), faults).plan(edited)
    if faults:
        raise RequestFaults(resolved(faults, document))
    return read, plan


def _part(
    document: dict[str, object],
    field: str,
    read: Callable[[dict[str, object]], _Read],
    faults: list[Fault],
) -> _Read | None:
    """One half of the document; None with its faults noted where it cannot be read."""
    part = document.get(field)
    if not isinstance(part, dict):
        code = "missing" if field not in document else "wrong_type"
        faults.append(Fault(f"/{field}", code, f"Give the {field} as an object, in braces."))
        return None
    try:
        return read(part)
    except RequestFaults as error:
        faults += [Fault(f"/{field}{f.pointer}", f.code, f.detail) for f in error.faults]
        return None


def _read_edited(document: dict[str, object]) -> EditedPlan:
    try:
        return EditedPlan.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, EditedPlan)) from None
