"""Pins and containers of a plan as the wire has them."""

from __future__ import annotations

import copy

from service.translate.read.requests import read_plan_request
from service.translate.write import containers
from service.translate.write.containers import write_containers
from service.translate.write.pins import write_pins
from solver.checker.queries.container_reasons import ContainerReason
from solver.plan import Finding
from tests.service.one_night_out import PLAN, REQUEST
from tests.service.wire import wire


def test_a_pin_comes_back_with_its_trip_and_what_is_there() -> None:
    """Each pin names where it stands in the request and how many units its load has."""
    document = copy.deepcopy(REQUEST)
    document["pins"] = [{"unit_id": "all/meal", "person_id": "solo", "day": 1, "in": "sled"}]
    read = read_plan_request(document)
    (pin,) = write_pins(read, PLAN)
    there = [u.count for u in PLAN.trips[0].loads[0].sled if u.unit_id == "all/meal"]
    assert wire(pin) == {
        "pointer": "/pins/0",
        "unit_id": "all/meal",
        "name": None,
        "person_id": "solo",
        "day": 1,
        "step": 1,
        "from": "road",
        "to": "camp",
        "in": "sled",
        "count": 1,
        "carried": sum(there),
    }
    assert write_pins(read_plan_request(REQUEST), PLAN) == []


def test_a_container_says_when_it_is_opened_and_what_its_lack_would_break() -> None:
    """The one container of one night out is opened on its night."""
    (reason,) = write_containers(read_plan_request(REQUEST), PLAN)
    assert (reason.count, reason.opened_day, reason.opened_at) == (1, 1, "camp")
    assert reason.without_one is not None
    assert reason.without_one.rule_id == "fuel_held"
    assert reason.lighter == []
    assert reason.say.startswith("1 x can: opened on the night of day 1 at camp. Without one: ")


def test_a_container_is_called_by_its_name(monkeypatch) -> None:
    """In words neither the container nor a lighter one in its place has an id."""
    document = copy.deepcopy(REQUEST)
    small = {"container_id": "cup", "name": "0.5 L cup", "content": "450 mL", "tare": "90 g"}
    (can,) = document["fuel"]["containers"]
    document["fuel"]["containers"] = [can | {"name": "1 L can"}, small | {"volume": "600 mL"}]
    read = read_plan_request(document)
    kind = read.problem.cook_groups[0].containers[0]
    broken = Finding("reserves_held", "too little", 1, "mL")
    found = (ContainerReason(kind, 2, None, broken, ("cup",)),)
    monkeypatch.setattr(containers, "why_containers", lambda *_: found)
    (reason,) = write_containers(read, PLAN)
    assert reason.say == (
        "2 x 1 L can: not opened. Without one: too little. In its place one of these would do: "
        "0.5 L cup."
    )
