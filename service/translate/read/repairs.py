"""Replacing what a fault of the wire is about by something that can be read."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from service.translate.read.known_fields import field_meant, may_be_left_out
from service.translate.read.wire_faults import KEY

_SOMEBODY = {"person_id": "somebody", "pack_cap": "25 kg"}
_SOMEWHERE = {"place_id": "somewhere", "elevation": "1000 m"}

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
    "calendar": [["somewhere"]],
    "places": [_SOMEWHERE],
    "route": {"places": [_SOMEWHERE], "legs": []},
    "reason": "something",
}
"""What stands in for a field that is required and whose value cannot be read."""

_NAMES = frozenset({"from", "to", "hauler", "place"})


def repair(
    document: dict[str, object],
    details: ErrorDetails,
    model: type[BaseModel],
    *,
    meant: str | None,
) -> bool:
    """Replace, fill in, rename or take out what an error is about; False when nothing will do.

    `meant` is the missing field for which an unknown one stands.
    """
    steps: list[Any] = list(_steps(document, details["loc"]))
    if not steps:
        return False
    *way, last = steps
    holder: Any = document
    for step in way:
        holder = holder[step]
    if last not in _keys(holder, details):
        return False
    if details["loc"][-1] == KEY:
        holder[_as_id(str(last))] = holder.pop(last)
    elif details["type"] == "extra_forbidden":
        value = holder.pop(last)
        target = meant or field_meant(model, details["loc"])
        if target is not None and target not in holder:
            holder[target] = value
    else:
        return _replace(holder, last, details, model)
    return True


def _keys(holder: Any, details: ErrorDetails) -> Any:  # noqa: ANN401
    """What may be put right in a list or an object; a missing field may be put in."""
    if isinstance(holder, list):
        return range(len(holder))
    return {*holder, details["loc"][-1]} if isinstance(holder, dict) else ()


def _replace(holder: Any, last: Any, details: ErrorDetails, model: type[BaseModel]) -> bool:  # noqa: ANN401
    given = holder[last] if isinstance(holder, list) else holder.get(last)
    stand_in = _stand_in(details, str(last), given)
    if stand_in is not None:
        holder[last] = copy.deepcopy(stand_in)
    elif isinstance(holder, list) or may_be_left_out(model, details["loc"]):
        del holder[last]
    else:
        return False
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
            elif step == location[-1] and step != KEY:
                yield step
                return


def _stand_in(details: ErrorDetails, field: str, given: object) -> object:
    code, context = details["type"], details.get("ctx", {})
    by_code: dict[str, object] = {
        "greater_than_equal": context.get("ge"),
        "less_than_equal": context.get("le"),
        "not_a_number": 1,
        "not_whole": 1,
        "not_a_date": "2000-01-01",
        "not_a_time": "06:00",
        "not_a_word": "something",
        "bool_type": False,
    }
    if code in {"no_unit", "negative", "not_a_quantity"}:
        return context.get("example")
    if code == "literal_error":
        return str(context["expected"]).split("'")[1]
    if code == "too_long" and isinstance(given, list):
        return given[: context["max_length"]]
    if code in by_code:
        return by_code[code]
    if field.endswith("_id") or field in _NAMES or code == "string_pattern_mismatch":
        return _as_id(str(given) if isinstance(given, str | int) else f"{field}-not-given")
    return _BY_FIELD.get(field)


def _as_id(text: str) -> str:
    """The text with a hyphen for whatever an id may not have; equal texts give equal ids."""
    return re.sub(r"[^A-Za-z0-9._-]", "-", f"x{text}" if not text[:1].isalnum() else text)[:64]
