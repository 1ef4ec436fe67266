"""Which fields an object of the wire has, and what a caller may have meant by another name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from service.translate.read.near_names import MOST_LISTED, did_you_mean, near_names

_WHOLE_OF_AN_ID = "id"


def advice(model: type[BaseModel], location: tuple[int | str, ...]) -> str:
    """What to write in place of the unknown field at the end of an address, in one sentence.

    Only names of the schema are repeated, nothing of the request.
    """
    *way, name = location
    known = sorted(_fields_at(model, way))
    hint = did_you_mean(str(name), known).rstrip()
    if hint:
        return hint
    if 0 < len(known) <= MOST_LISTED:
        return f"Fields here are {', '.join(known)}."
    return "Check its spelling against the published schema."


def meant_by(given: str, missing: list[str]) -> str | None:
    """The one missing field that an unknown one stands for, None where it is not plain."""
    if given == _WHOLE_OF_AN_ID:
        near = [name for name in missing if name.endswith("_id")]
    else:
        near = near_names(given, missing)
    return near[0] if len(near) == 1 else None


def field_meant(model: type[BaseModel], location: tuple[int | str, ...]) -> str | None:
    """The field that the unknown one at the end of an address is most like."""
    *way, name = location
    near = near_names(str(name), _fields_at(model, way))
    return near[0] if near else None


def may_be_left_out(model: type[BaseModel], location: tuple[int | str, ...]) -> bool:
    """Whether the field at an address is one that a request need not have."""
    *way, name = location
    fields = [field for key, field in _fields(model, way) if key == name]
    return bool(fields) and not any(field.is_required() for field in fields)


def _fields_at(model: type[BaseModel], way: list[int | str]) -> set[str]:
    return {name for name, _ in _fields(model, way)}


def _fields(model: type[BaseModel], way: list[int | str]) -> Iterator[tuple[str, FieldInfo]]:
    """The fields of every model that may stand at an address; steps that are no field lead on."""
    here = {model}
    for step in way:
        named = {one for one in here if step in _names_of_its_form(one)}
        if named and len(here) > 1:
            here = named
            continue
        inner = {
            found
            for one in here
            for name, field in one.model_fields.items()
            if (field.alias or name) == step
            for found in _models_in(field.annotation)
        }
        here = inner or here
    for one in here:
        for name, field in one.model_fields.items():
            yield field.alias or name, field


def _names_of_its_form(model: type[BaseModel]) -> set[object]:
    """What a required field with a closed choice may say: by it one of several forms is meant."""
    return {
        word
        for field in model.model_fields.values()
        if field.is_required() and get_origin(field.annotation) is Literal
        for word in get_args(field.annotation)
    }


def _models_in(annotation: object) -> Iterator[type[BaseModel]]:
    """The models that an annotation names: of a list, of a union, or itself."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for argument in get_args(annotation):
        yield from _models_in(argument)
