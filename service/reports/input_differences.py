"""What differs between two requests, part by part; entries of lists are matched by their ids."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Literal

from api_schema.difference_answer import InputDifferenceAnswer

_IDS = (
    "person_id",
    "item_id",
    "place_id",
    "leg_id",
    "sled_id",
    "set_id",
    "container_id",
    "flight_id",
    "part_id",
    "rule_id",
)
_NOTHING = object()


def input_differences(
    one: object, other: object, where: str = ""
) -> Iterator[InputDifferenceAnswer]:
    """Each smallest part that differs, in the order of the first and then of the second."""
    if one is _NOTHING or other is _NOTHING:
        yield _difference(where, one, other)
    elif isinstance(one, dict) and isinstance(other, dict):
        for name in dict.fromkeys((*one, *other)):
            yield from input_differences(
                one.get(name, _NOTHING), other.get(name, _NOTHING), f"{where}/{name}"
            )
    elif isinstance(one, list) and isinstance(other, list) and (key := _key(one, other)):
        named, others = ({str(entry[key]): entry for entry in part} for part in (one, other))
        yield from input_differences(named, others, where)
    elif one != other:
        yield _difference(where, one, other)


def _key(one: list[object], other: list[object]) -> str | None:
    """The id by which the entries of two lists are matched; none where they are not one each."""
    entries = [entry for entry in (*one, *other) if isinstance(entry, dict)]
    if not entries or len(entries) < len(one) + len(other):
        return None
    for key in _IDS:
        if all(key in entry for entry in entries):
            is_one_each = all(
                len({str(e[key]) for e in part if isinstance(e, dict)}) == len(part)
                for part in (one, other)
            )
            return key if is_one_each else None
    return None


def _difference(where: str, one: object, other: object) -> InputDifferenceAnswer:
    kind: Literal["added", "removed", "changed"] = "changed"
    if one is _NOTHING:
        kind = "added"
    elif other is _NOTHING:
        kind = "removed"
    return InputDifferenceAnswer(where=where, kind=kind, from_=_text(one), to=_text(other))


def _text(part: object) -> str | None:
    return None if part is _NOTHING else json.dumps(part, ensure_ascii=False)
