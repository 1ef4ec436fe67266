"""Requests with lists of the schema at their limits, one list or two at a time."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from itertools import combinations
from typing import Any

from tests.service.sweep_fields import Document, Place, in_full
from tests.service.wire_fields import Schema, schemas

LARGEST_BYTES = 1_900_000
"""A little less than the service takes of a body [byte]."""
OWN_IDS = ("person_id", "item_id", "place_id", "sled_id", "part_id", "night_set_id", "flight_id")
"""Names of an object in its list; each gets its own, so that the body is not refused for that."""


def forms(schema: Schema) -> Iterator[Schema]:
    """A schema and all that it may be instead, with references followed."""
    if "$ref" in schema:
        yield from forms(schemas()[schema["$ref"].rpartition("/")[2]])
        return
    yield schema
    for word in ("anyOf", "oneOf", "allOf"):
        for form in schema.get(word, ()):
            yield from forms(form)


def limits(schema: Schema, value: object, place: Place = ()) -> Iterator[tuple[Place, int]]:
    """Each list and map of a document that the schema limits: where it is, and its most members."""
    for form in forms(schema):
        if isinstance(value, list) and "items" in form:
            if "maxItems" in form:
                yield place, form["maxItems"]
            for index, part in enumerate(value):
                yield from limits(form["items"], part, (*place, index))
        elif isinstance(value, dict):
            if "maxProperties" in form:
                yield place, form["maxProperties"]
            inner = form.get("properties", {})
            others = form.get("additionalProperties")
            for name, part in value.items():
                its_schema = inner.get(name, others)
                if isinstance(its_schema, dict):
                    yield from limits(its_schema, part, (*place, name))


def filled(document: Document, place: Place, most: int) -> Document:
    """The document with as many members at a place as there may be, and as a body may hold."""
    changed = copy.deepcopy(document)
    part: Any = changed
    for step in place:
        part = part[step]
    if not part:
        return changed
    room = LARGEST_BYTES - size_of(document)
    count = min(most, len(part) + max(0, room) * len(part) // size_of(part))
    if isinstance(part, list):
        given = copy.deepcopy(part)
        part += [_another(given[n % len(given)], n) for n in range(len(given), count)]
    else:
        name, value = next(iter(part.items()))
        part |= {f"{name}-{n}": copy.deepcopy(value) for n in range(len(part), count)}
    return changed


def _another(member: object, number: int) -> object:
    """A member like one that is there, under a name of its own where members have names."""
    made = copy.deepcopy(member)
    if isinstance(made, dict):
        own = next((name for name in OWN_IDS if name in made), None)
        if own is not None:
            made[own] = f"{made[own]}-{number}"
    return made


def full_bodies() -> Iterator[tuple[str, Document]]:
    """Each list of a request at its limit, alone and then in pairs, with what was filled."""
    document = in_full()
    found: dict[Place, int] = {}
    kinds: set[Place] = set()
    for place, most in limits(schemas()["PlanRequest"], document):
        # Of lists of one kind, such as the kits of all people, the first is filled.
        kind = tuple("*" if isinstance(step, int) else step for step in place)
        if kind not in kinds:
            kinds.add(kind)
            found[place] = most
    for place, most in found.items():
        yield _name(place), filled(document, place, most)
    for first, second in combinations(sorted(found, key=str), 2):
        # The inner one first, so that the outer one multiplies it.
        inner, outer = sorted((first, second), key=len, reverse=True)
        both = filled(filled(document, inner, found[inner]), outer, found[outer])
        yield f"{_name(inner)} and {_name(outer)}", both


def _name(place: Place) -> str:
    return "/" + "/".join(map(str, place))


def size_of(document: object) -> int:
    """The length of a document as JSON [byte]."""
    return len(json.dumps(document).encode())
