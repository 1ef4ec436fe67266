"""A plan sent to be checked, read back into the solver's form.

A caller needs to edit `trips[].loads[]` only: moving an entry from one pack to another keeps its
mass with it. Totals and shares of a plan that was sent are let pass and worked out again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from pydantic import ValidationError

from api_schema.edited_plan import EditedPlan
from api_schema.plan_check import PlanCheckRequest
from service.errors import Fault, RequestFaults
from service.pointers import resolved
from service.translate.read.consequences import touch
from service.translate.read.edited_plan import PlanReader
from service.translate.read.mending import mended
from service.translate.read.other_addresses import misplaced
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.read.wire_faults import pointer_of, wire_faults
from solver.checker.ledger.facts import read_facts
from solver.plan import Plan

_Read = TypeVar("_Read")

_FIELDS = frozenset(PlanCheckRequest.model_fields)
_HERE = "Fields here are request and plan."


def read_plan_check(document: dict[str, object]) -> tuple[ReadRequest, Plan]:
    """The request and the plan of a document; raises RequestFaults with every fault of both."""
    unknown_fields = {f: value for f, value in document.items() if f not in _FIELDS}
    elsewhere = misplaced(PlanCheckRequest, unknown_fields, _FIELDS - document.keys())
    faults = [
        Fault(f"/{f}", "unknown_field", f"There is no such field. {elsewhere.advice.get(f, _HERE)}")
        for f in unknown_fields
    ]
    read = edited = None
    if "request" not in elsewhere.held:
        read = _part(document, "request", read_plan_request, faults)
    if "plan" not in elsewhere.held:
        edited = _part(document, "plan", _read_edited, faults)
    if edited is not None:
        faults += _under("plan", edited.faults)
    if read is None or edited is None:
        raise RequestFaults(resolved(faults, document))
    unknown: list[Fault] = []
    plan = PlanReader(read_facts(read.problem, read.timeline), unknown).plan(edited.plan)
    # What was put in for an id that cannot be read is nobody's mistake.
    made_up = [f"/plan{pointer}" for pointer in edited.replaced]
    faults += [fault for fault in unknown if not any(touch(fault.pointer, m) for m in made_up)]
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
        faults += _under(field, error.faults)
        return None


def _under(field: str, faults: Iterable[Fault]) -> list[Fault]:
    """Faults of one half, at their places in the whole document."""
    return [replace(fault, pointer=f"/{field}{fault.pointer}") for fault in faults]


@dataclass(frozen=True, slots=True)
class _Edited:
    """A plan as it can be read, its faults, and pointers to what was replaced for that."""

    plan: EditedPlan
    faults: tuple[Fault, ...] = ()
    replaced: tuple[str, ...] = ()


def _read_edited(document: dict[str, object]) -> _Edited:
    """The plan, mended where the wire has faults; raises RequestFaults where that cannot be."""
    try:
        return _Edited(EditedPlan.model_validate(document))
    except ValidationError as error:
        faults = wire_faults(error, EditedPlan)
        plan, replaced = mended(document, error, EditedPlan)
        if plan is None:
            raise RequestFaults(faults) from None
        return _Edited(plan, faults, tuple(pointer_of(location) for location in replaced))
