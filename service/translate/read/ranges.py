"""Ranges of the schema, held against every quantity of a request that has one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import Annotated, get_args, get_origin, get_type_hints

from pydantic import BaseModel

from api_schema.quantities import Range
from service.translate.read import quantities
from service.translate.read.notes import Notes, pointer_to


def note_out_of_range(part: BaseModel, notes: Notes, pointer: str = "") -> None:
    """A fault for each quantity of a part of a request, however deep, that is out of its range.

    It comes last: where another fault is told of a quantity, that says enough.
    """
    told = _ranges(type(part))
    for name, field in type(part).model_fields.items():
        here = pointer + pointer_to(field.alias or name)
        for where, value in _values(getattr(part, name), here):
            if isinstance(value, BaseModel):
                note_out_of_range(value, notes, where)
            elif isinstance(value, str) and name in told:
                bounds = _bounds_of(value, told[name])
                if _within(value, bounds):
                    continue
                if any(where.startswith(fault.pointer) for fault in notes.faults if fault.pointer):
                    continue
                notes.fault(
                    where,
                    "out_of_range",
                    f"This must be between {bounds.least} and {bounds.most}. Check number and "
                    "unit.",
                )


def _values(value: object, pointer: str) -> Iterator[tuple[str, object]]:
    """A value, or each of those in a list or mapping, with its address."""
    if isinstance(value, list):
        for index, part in enumerate(value):
            yield from _values(part, pointer + pointer_to(index))
    elif isinstance(value, dict):
        for name, part in value.items():
            yield from _values(part, pointer + pointer_to(name))
    else:
        yield pointer, value


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


def _within(text: str, bounds: Range) -> bool:
    return _size(bounds.least) <= _size(text) <= _size(bounds.most)


def _size(text: str) -> Decimal:
    """A quantity in the base unit of its kind, exactly; temperatures in degrees Celsius."""
    return quantities.exactly(text)
