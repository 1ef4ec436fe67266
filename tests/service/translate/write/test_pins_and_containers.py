"""Pins and containers of a plan as the wire has them."""

from __future__ import annotations

import copy

from service.translate.read.requests import read_plan_request
from service.translate.write.containers import write_containers
from service.translate.write.pins import write_pins
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
    assert reason.say.startswith("1 all/can, opened on the night of day 1 at camp. Without one: ")
