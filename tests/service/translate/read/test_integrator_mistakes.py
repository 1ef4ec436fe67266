"""What integrators get wrong is told whole, at its place, and with the remedy."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from service.errors import RequestFaults
from service.translate.read.requests import read_plan_request
from tests.service.translate.read.integrator_mistakes import DROP, MISTAKES, Renamed

EXAMPLE = json.loads(Path("examples/independent-three.json").read_text(encoding="utf-8"))


def steps(pointer: str) -> list[str]:
    """The names in a pointer."""
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]


def at(document: Any, way: list[str]) -> Any:
    """What a pointer leads to; KeyError or IndexError where it leads nowhere."""
    for step in way:
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def spoilt(changes: dict[str, Any]) -> dict[str, Any]:
    """The example with changes at pointers."""
    document = copy.deepcopy(EXAMPLE)
    for pointer, value in changes.items():
        *way, last = steps(pointer)
        holder = at(document, way)
        key = int(last) if isinstance(holder, list) else last
        if value is DROP:
            del holder[key]
        elif isinstance(value, Renamed):
            holder[value.name] = holder.pop(key)
        else:
            holder[key] = value
    return document


@pytest.mark.parametrize(
    ("changes", "expected"),
    [pytest.param(changes, expected, id=name) for name, changes, expected in MISTAKES],
)
def test_a_mistake_is_told_whole_at_its_place_with_the_remedy(changes, expected):
    """Exactly the faults of a request are listed; pointers resolve, and texts name the remedy."""
    document = spoilt(changes)
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(document)
    faults = caught.value.faults
    assert [(f.pointer, f.code) for f in faults] == [(p, code) for p, code, _ in expected]
    for fault, (_, _, remedy) in zip(faults, expected, strict=True):
        at(document, steps(fault.pointer))
        assert remedy in fault.detail


def test_at_least_fifty_mistakes_are_tried():
    """The table has fifty different mistakes or more, and the example itself has none."""
    assert len({json.dumps(changes, default=str) for _, changes, _ in MISTAKES}) >= 50
    assert read_plan_request(EXAMPLE).reference == "independent-three"
