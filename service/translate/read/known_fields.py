"""Which fields an object of the wire has, and what a caller may have meant by another name."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches
from typing import get_args

from pydantic import BaseModel

LONGEST_NAME = 64
"""Longer names are not compared; no field has one."""

_MOST_LISTED = 12


def advice(model: type[BaseModel], location: tuple[int | str, ...]) -> str:
    """What to write in place of the unknown field at the end of an address, in one sentence.

    Only names of the schema are repeated, nothing of the request.
    """
    *way, name = location
    known = sorted(_fields_at(model, way))
    near = get_close_matches(str(name), known, n=3) if len(str(name)) <= LONGEST_NAME else []
    if near:
        return f"Did you mean {' or '.join(near)}?"
    if 0 < len(known) <= _MOST_LISTED:
        return f"Fields here are {', '.join(known)}."
    return "Check its spelling against the published schema."


def _fields_at(model: type[BaseModel], way: list[int | str]) -> set[str]:
    """The fields of every model that may stand at an address; steps that are no field lead on."""
    here = {model}
    for step in way:
        inner = {
            found
            for one in here
            for name, field in one.model_fields.items()
            if (field.alias or name) == step
            for found in _models_in(field.annotation)
        }
        here = inner or here
    return {field.alias or name for one in here for name, field in one.model_fields.items()}


def _models_in(annotation: object) -> Iterator[type[BaseModel]]:
    """The models that an annotation names: of a list, of a union, or itself."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for argument in get_args(annotation):
        yield from _models_in(argument)
