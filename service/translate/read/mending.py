"""A second look behind faults of the wire, so that all faults are told at once.

What cannot be read is replaced by something that can, in a copy, and the copy is read on. Faults
found there count only where they do not touch what was replaced.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from api_schema.plan_request import PlanRequest
from service.errors import Fault
from service.translate.read.notes import Notes
from service.translate.read.wire_faults import pointer_of

_MOST_FAULTS_MENDED = 200

_SOMEBODY = {"person_id": "somebody", "pack_cap": "25 kg"}

_BY_FIELD: dict[str, object] = {
    "elevation": "1000 m",
    "mass": "1 kg",
    "pack_cap": "25 kg",
    "content": "1 L",
    "tare": "1 kg",
    "volume": "1 L",
    "mode": "pack",
    "needed": "every_night",
    "nights": 1,
    "legs": [],
    "roster": [_SOMEBODY],
}
"""What stands in for a field that is required; ids and lists of places have no stand-in."""


_WITHOUT_PEOPLE = frozenset({"teleports", "place_repeated", "no_leg", "not_back_at_start"})
"""Faults of the calendar that are the same whoever goes."""


def faults_behind(
    document: dict[str, object],
    error: ValidationError,
    read: Callable[[PlanRequest], Notes],
) -> tuple[Fault, ...]:
    """Faults of the rest of a document in which the wire's faults are mended, if they can be."""
    errors = error.errors(include_url=False, include_input=False)
    if len(errors) > _MOST_FAULTS_MENDED:
        return ()
    mended = copy.deepcopy(document)
    # From the back, so that taking an entry out of a list moves none that is still to be mended.
    if not all(_mend(mended, details) for details in reversed(errors)):
        return ()
    try:
        request = PlanRequest.model_validate(mended)
    except ValidationError:
        return ()
    touched = tuple(pointer_of(details["loc"]) for details in errors)
    return tuple(fault for fault in read(request).faults if not _follows(fault, touched))


def _follows(fault: Fault, touched: tuple[str, ...]) -> bool:
    """Whether a fault may come of the mending and not of the request."""
    if "/roster" in touched and fault.code not in _WITHOUT_PEOPLE:
        return not fault.pointer.startswith("/route")
    return any(
        fault.pointer == pointer
        or fault.pointer.startswith(pointer + "/")
        or pointer.startswith(fault.pointer + "/")
        for pointer in touched
    )


def _mend(document: dict[str, object], details: ErrorDetails) -> bool:
    """Replace, fill in or take out what one error is about; False when nothing will do."""
    steps = list(_steps(document, details["loc"]))
    if not steps:
        return False
    *way, last = steps
    holder: Any = document
    for step in way:
        holder = holder[step]
    code, context = details["type"], details.get("ctx", {})
    if code == "extra_forbidden":
        del holder[last]
        return True
    stand_in = _stand_in(code, context, str(last))
    if stand_in is None:
        return False
    holder[last] = copy.deepcopy(stand_in)
    return True


def _steps(document: dict[str, object], location: tuple[int | str, ...]) -> Iterator[int | str]:
    """The steps of an error's address that are really in the document."""
    here: Any = document
    for step in location:
        if isinstance(here, list) and isinstance(step, int) and step < len(here):
            yield step
            here = here[step]
        elif isinstance(here, dict) and isinstance(step, str):
            if step in here:
                yield step
                here = here[step]
            elif step == location[-1]:
                yield step
                return


def _stand_in(code: str, context: dict[str, Any], field: str) -> object:
    if code in {"no_unit", "negative", "not_a_quantity"}:
        return context.get("example")
    if code == "greater_than_equal":
        return context["ge"]
    if code == "less_than_equal":
        return context["le"]
    if code in {"not_a_number", "not_whole"}:
        return 1
    if code == "not_a_date":
        return "2000-01-01"
    if code == "not_a_time":
        return "06:00"
    if code == "not_a_word":
        return "something"
    if code == "literal_error":
        return str(context["expected"]).split("'")[1]
    if code == "bool_type":
        return False
    return _BY_FIELD.get(field)
