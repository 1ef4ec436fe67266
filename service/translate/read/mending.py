"""A second look behind faults of the wire, so that all faults are told at once.

What cannot be read is replaced by something that can, in a copy, and the copy is read on. Faults
found there count only where they cannot come of what was replaced.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Sequence

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from api_schema.plan_request import PlanRequest
from service.errors import Fault
from service.translate.read.consequences import Consequences
from service.translate.read.notes import Notes
from service.translate.read.repairs import repair
from service.translate.read.wire_faults import Location, renamed_fields, wire_faults

_MOST_FAULTS_MENDED = 200
_MOST_ROUNDS = 4
"""A field with its name put right may have a value to put right, and so on."""


def faults_behind(
    document: dict[str, object],
    error: ValidationError,
    read: Callable[[PlanRequest], Notes],
) -> tuple[Fault, ...]:
    """Faults of the rest of a document in which the wire's faults are mended, if they can be."""
    mended = copy.deepcopy(document)
    replaced: list[Location] = []
    later: list[Fault] = []
    for number in range(_MOST_ROUNDS):
        errors = error.errors(include_url=False, include_input=False)
        if number:
            follows = Consequences.of(replaced)
            later += [f for f in wire_faults(error, PlanRequest) if not follows.has(f)]
        if len(errors) > _MOST_FAULTS_MENDED or not _repair_all(mended, errors):
            return tuple(later)
        replaced += [details["loc"] for details in errors if _is_replaced(details, errors)]
        try:
            request = PlanRequest.model_validate(mended)
        except ValidationError as left:
            error = left
        else:
            follows = Consequences.of(replaced)
            return (*later, *(f for f in read(request).faults if not follows.has(f)))
    return tuple(later)


def _is_replaced(details: ErrorDetails, errors: Sequence[ErrorDetails]) -> bool:
    """Whether the mending of an error puts in what was not sent; a name put right does not."""
    if details["type"] == "extra_forbidden":
        return False
    return details["type"] != "missing" or details["loc"] not in _given_by_another_name(errors)


def _given_by_another_name(errors: Sequence[ErrorDetails]) -> set[Location]:
    return {(*location[:-1], name) for location, name in renamed_fields(errors).items()}


def _repair_all(document: dict[str, object], errors: Sequence[ErrorDetails]) -> bool:
    renamed = renamed_fields(errors)
    given = _given_by_another_name(errors)
    # From the back, so that taking an entry out of a list moves none that is still to be mended.
    return all(
        repair(document, details, PlanRequest, meant=renamed.get(details["loc"]))
        for details in reversed(errors)
        if details["type"] != "missing" or details["loc"] not in given
    )
