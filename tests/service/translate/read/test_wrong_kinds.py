"""Whatever stands in any part of a request, it is read or refused, and nothing breaks.

HAULWRIGHT_LONG=1 tries more kinds of wrong values.
"""

import copy
import os
from collections.abc import Iterator
from typing import Any

import pytest

from service.errors import Fault, RequestFaults
from service.translate.read.comparisons import read_comparison
from service.translate.read.requests import read_plan_request
from tests.service.sweep_fields import Place, in_full

KINDS: tuple[object, ...] = ([{}], {"x": []})
if "HAULWRIGHT_LONG" in os.environ:
    KINDS += (None, {}, [], [None], [[]], True, -1, "", "x")


def places(part: object, way: Place = ()) -> Iterator[Place]:
    """Each part of a document below the top; of a list, the first two entries."""
    if way:
        yield way
    if isinstance(part, dict):
        for name, below in part.items():
            yield from places(below, (*way, name))
    elif isinstance(part, list):
        for number, below in enumerate(part[:2]):
            yield from places(below, (*way, number))


def spoilt(document: dict[str, Any], way: Place, value: object) -> dict[str, Any]:
    """A copy with another value at the end of the way."""
    made = copy.deepcopy(document)
    holder: Any = made
    for step in way[:-1]:
        holder = holder[step]
    holder[way[-1]] = value
    return made


def faults_of(document: dict[str, Any]) -> tuple[Fault, ...] | None:
    """What is wrong with a request; None where it is taken."""
    try:
        read_plan_request(document)
    except RequestFaults as refused:
        return refused.faults
    return None


def without_the_last() -> dict[str, Any]:
    """A request that says everything, from which the last of the roster is taken off."""
    document = in_full()
    return document | {"without": [document["roster"][-1]["person_id"]]}


WHOLE = without_the_last()


@pytest.mark.parametrize("part", sorted(WHOLE))
def test_any_part_of_a_request_may_be_of_a_wrong_kind(part):
    """Somebody leaves, so that everything that could name them is looked through."""
    tried = 0
    for way in [(part, *below) for below in ((), *places(WHOLE[part]))]:
        for kind in KINDS:
            tried += 1
            assert faults_of(spoilt(WHOLE, way, kind)) != ()
    assert tried >= len(KINDS)


@pytest.mark.parametrize("person", [{}, [], None, 7, True])
def test_a_seat_of_nobody_is_told_in_each_variant(person):
    """A variant that writes nonsense into a flight and takes somebody off is told of it alone."""
    document = in_full()
    flight = {"flights": [document["flights"][0] | {"people": [person]}]}
    gone = {"edit": "without", "person_id": document["roster"][-1]["person_id"]}
    variants = [{"name": "spoilt", "patch": flight, "edits": [gone]}]
    compared = {"base": document, "variants": variants}
    base, variant = read_comparison(compared, read_plan_request)
    assert base.faults == ()
    assert variant.faults
