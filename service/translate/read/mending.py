"""A second look behind faults of the wire, so that all faults are told at once.

What cannot be read is replaced by something that can, in a copy, and the copy is read on. Faults
found there count only where they cannot come of what was replaced.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from api_schema.plan_request import PlanRequest
from service.errors import Fault
from service.translate.read.consequences import Consequences
from service.translate.read.notes import Notes
from service.translate.read.repairs import repair
from service.translate.read.wire_faults import Location, renamed_fields, wire_faults

_Model = TypeVar("_Model", bound=BaseModel)

_MOST_FAULTS_MENDED = 200
_MOST_ROUNDS = 4
"""A field with its name put right may have a value to put right, and so on."""


def faults_behind(
    document: dict[str, object],
    error: ValidationError,
    read: Callable[[PlanRequest], Notes],
) -> tuple[Fault, ...]:
    """Faults of the rest of a document in which the wire's faults are mended, if they can be."""
    later: list[Fault] = []
    for found, replaced in _rounds(document, error, PlanRequest):
        follows = Consequences.of(replaced)
        faults = (
            wire_faults(found, PlanRequest)
            if isinstance(found, ValidationError)
            else read(found).faults
        )
        later += [fault for fault in faults if not follows.has(fault)]
    return tuple(later)


def mended(
    document: dict[str, object], error: ValidationError, model: type[_Model]
) -> tuple[_Model | None, Sequence[Location]]:
    """A document with its wire's faults mended, None where they cannot be; and what was put in."""
    for found, replaced in _rounds(document, error, model):
        if isinstance(found, model):
            return found, replaced
    return None, ()


def _rounds(
    document: dict[str, object], error: ValidationError, model: type[_Model]
) -> Iterator[tuple[ValidationError | _Model, list[Location]]]:
    """What is left wrong after each mending, or at last what was read; and all that was replaced.

    Nothing comes where an error cannot be mended.
    """
    again = copy.deepcopy(document)
    replaced: list[Location] = []
    for _ in range(_MOST_ROUNDS):
        errors = error.errors(include_url=False, include_input=False)
        if len(errors) > _MOST_FAULTS_MENDED or not _repair_all(again, errors, model):
            return
        replaced += [details["loc"] for details in errors if _is_replaced(details, errors)]
        try:
            found = model.model_validate(again)
        except ValidationError as left:
            error = left
            yield left, replaced
        else:
            yield found, replaced
            return


def _is_replaced(details: ErrorDetails, errors: Sequence[ErrorDetails]) -> bool:
    """Whether the mending of an error puts in what was not sent; a name put right does not."""
    if details["type"] == "extra_forbidden":
        return False
    return details["type"] != "missing" or details["loc"] not in _given_by_another_name(errors)


def _given_by_another_name(errors: Sequence[ErrorDetails]) -> set[Location]:
    return {(*location[:-1], name) for location, name in renamed_fields(errors).items()}


def _repair_all(
    document: dict[str, object], errors: Sequence[ErrorDetails], model: type[BaseModel]
) -> bool:
    renamed = renamed_fields(errors)
    given = _given_by_another_name(errors)
    # From the back, so that taking an entry out of a list moves none that is still to be mended.
    return all(
        repair(document, details, model, meant=renamed.get(details["loc"]))
        for details in reversed(errors)
        if details["type"] != "missing" or details["loc"] not in given
    )
