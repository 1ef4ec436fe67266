"""Ranges of the schema, held against every quantity of a request that has one."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from functools import cache, lru_cache
from typing import Annotated, get_args, get_origin, get_type_hints

from pydantic import BaseModel

from api_schema.quantities import Range
from service.translate.read import quantities
from service.translate.read.notes import Notes, pointer_to

Address = tuple["Address", str | int] | None
"""Where a value stands: the address of what holds it, and one step. Few are ever written out."""

_KNOWN_QUANTITIES = 4096


def note_out_of_range(part: BaseModel, notes: Notes) -> None:
    """A fault for each quantity of a part of a request, however deep, that is out of its range.

    It comes last: where another fault is told of a quantity, that says enough.
    """
    beyond: list[tuple[Address, Range]] = []
    _look_into(part, None, beyond)
    for address, bounds in beyond:
        where = _written(address)
        if any(where.startswith(fault.pointer) for fault in notes.faults if fault.pointer):
            continue
        notes.fault(
            where,
            "out_of_range",
            f"This must be between {bounds.least} and {bounds.most}. Check number and unit.",
        )


def _look_into(part: BaseModel, address: Address, beyond: list[tuple[Address, Range]]) -> None:
    """Add the quantities of a part that are out of their range, each with it."""
    given = part.model_fields_set
    for name, alias, ranges in _fields(type(part)):
        # What a model puts in for a field that is left out is in range.
        if name in given and (value := getattr(part, name)) is not None:
            _look_at(value, ranges, (address, alias), beyond)


def _look_at(
    value: object,
    ranges: tuple[Range, ...],
    address: Address,
    beyond: list[tuple[Address, Range]],
) -> None:
    """The same of one value, or of each of those in a list or mapping."""
    if isinstance(value, str):
        if ranges and (bounds := _broken(value, ranges)) is not None:
            beyond.append((address, bounds))
    elif isinstance(value, BaseModel):
        _look_into(value, address, beyond)
    elif isinstance(value, list):
        for index, part in enumerate(value):
            _look_at(part, ranges, (address, index), beyond)
    elif isinstance(value, dict):
        for name, part in value.items():
            _look_at(part, ranges, (address, name), beyond)


def _written(address: Address) -> str:
    """An address as a JSON Pointer."""
    steps: list[str | int] = []
    while address is not None:
        address, step = address
        steps.append(step)
    return pointer_to(*reversed(steps))


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, str, tuple[Range, ...]], ...]:
    """The fields of a model with ranges or with models in them: name, name on the wire, ranges."""
    hints = get_type_hints(model, include_extras=True)
    fields = [
        (name, field.alias or name, tuple(_ranges_in(hints[name])))
        for name, field in model.model_fields.items()
    ]
    return tuple(found for found in fields if found[2] or _has_model(hints[found[0]]))


def _has_model(hint: object) -> bool:
    """Whether an annotation names a model, in a union or list too."""
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return True
    return any(_has_model(part) for part in get_args(hint))


@lru_cache(maxsize=_KNOWN_QUANTITIES)
def _broken(text: str, ranges: tuple[Range, ...]) -> Range | None:
    """The range that a quantity is out of: the last of those for its kind, a share or none."""
    of_kind = [r for r in ranges if r.least.endswith("%") == text.endswith("%")]
    bounds = (of_kind or ranges)[-1]
    return None if _size(bounds.least) <= _size(text) <= _size(bounds.most) else bounds


def _ranges_in(hint: object) -> Iterator[Range]:
    """The ranges in an annotation, in a union or list too, from the inside out."""
    parts = get_args(hint)
    if get_origin(hint) is Annotated:
        yield from _ranges_in(parts[0])
        yield from (part for part in parts[1:] if isinstance(part, Range))
        return
    for part in parts:
        yield from _ranges_in(part)


def _size(text: str) -> Decimal:
    """A quantity in the base unit of its kind, exactly; temperatures in degrees Celsius."""
    return quantities.exactly(text)
