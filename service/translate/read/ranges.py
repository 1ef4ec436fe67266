"""Ranges of the schema, held against every quantity of a request that has one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache, lru_cache
from types import MappingProxyType
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
    for address, bounds in _beyond(part, None):
        where = _written(address)
        if any(where.startswith(fault.pointer) for fault in notes.faults if fault.pointer):
            continue
        notes.fault(
            where,
            "out_of_range",
            f"This must be between {bounds.least} and {bounds.most}. Check number and unit.",
        )


def _beyond(part: BaseModel, address: Address) -> Iterator[tuple[Address, Range]]:
    """The quantities of a part that are out of their range, each with it."""
    for name, alias, ranges in _fields(type(part)):
        value = getattr(part, name)
        if value is not None:
            yield from _beyond_in(value, ranges, (address, alias))


def _beyond_in(
    value: object, ranges: tuple[Range, ...], address: Address
) -> Iterator[tuple[Address, Range]]:
    """The same of one value, or of each of those in a list or mapping."""
    if isinstance(value, str):
        if ranges and not _within(value, bounds := _bounds_of(value, ranges)):
            yield address, bounds
    elif isinstance(value, BaseModel):
        yield from _beyond(value, address)
    elif isinstance(value, list):
        for index, part in enumerate(value):
            yield from _beyond_in(part, ranges, (address, index))
    elif isinstance(value, dict):
        for name, part in value.items():
            yield from _beyond_in(part, ranges, (address, name))


def _written(address: Address) -> str:
    """An address as a JSON Pointer."""
    steps: list[str | int] = []
    while address is not None:
        address, step = address
        steps.append(step)
    return pointer_to(*reversed(steps))


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, str, tuple[Range, ...]], ...]:
    """The fields of a model, each with its name on the wire and its ranges."""
    told = _ranges(model)
    return tuple(
        (name, field.alias or name, told.get(name, ()))
        for name, field in model.model_fields.items()
    )


@cache
def _ranges(model: type[BaseModel]) -> Mapping[str, tuple[Range, ...]]:
    """The ranges of each field that has any, as its annotation lists them."""
    hints = get_type_hints(model, include_extras=True)
    found = {name: list(_ranges_in(hint)) for name, hint in hints.items()}
    return MappingProxyType({name: tuple(ranges) for name, ranges in found.items() if ranges})


def _bounds_of(text: str, ranges: tuple[Range, ...]) -> Range:
    """The range that holds for a quantity: the last of those for its kind, a share or none."""
    of_kind = [r for r in ranges if r.least.endswith("%") == text.endswith("%")]
    return (of_kind or ranges)[-1]


def _ranges_in(hint: object) -> Iterator[Range]:
    """The ranges in an annotation, in a union or list too, from the inside out."""
    parts = get_args(hint)
    if get_origin(hint) is Annotated:
        yield from _ranges_in(parts[0])
        yield from (part for part in parts[1:] if isinstance(part, Range))
        return
    for part in parts:
        yield from _ranges_in(part)


@lru_cache(maxsize=_KNOWN_QUANTITIES)
def _within(text: str, bounds: Range) -> bool:
    return _size(bounds.least) <= _size(text) <= _size(bounds.most)


def _size(text: str) -> Decimal:
    """A quantity in the base unit of its kind, exactly; temperatures in degrees Celsius."""
    return quantities.exactly(text)
