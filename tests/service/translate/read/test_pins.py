"""Pins of a request: which load each means, what is unclear about them, and edits around them."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.errors import RequestFaults
from service.translate.read.calendars import read_calendars
from service.translate.read.edits.edited_request import with_edits_done
from service.translate.read.notes import Notes
from service.translate.read.pins import read_pins
from service.translate.read.replans import with_state
from service.translate.read.requests import read_plan_request
from solver.problem import Pin

STOVE = {"unit_id": "stove", "person_id": "third", "day": 2}


def with_pins(*pins: dict[str, Any], **more: Any) -> dict[str, Any]:
    """The smallest request with some pins."""
    return copy.deepcopy(SMALLEST_REQUEST) | {"pins": list(pins)} | more


def faults(*pins: dict[str, Any]) -> list[tuple[str, str]]:
    """Pointers and codes of what is wrong with some pins."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(with_pins(*pins))
    return [(fault.pointer, fault.code) for fault in caught.value.faults]


def test_a_pin_is_read_with_its_trip_and_load() -> None:
    """Without a step it is the only trip of that day, without `in` the pack, without a count 1."""
    on_sled = {"unit_id": "all/low", "person_id": "lead", "day": 1, "step": 1, "in": "sled"}
    read = read_plan_request(with_pins(STOVE, on_sled | {"count": 2}))
    assert read.problem.pins == (
        Pin("stove", 2, 1, "third"),
        Pin("all/low", 1, 1, "lead", on_sled=True, count=2),
    )
    assert read.pointer_of(("pins", 1)) == "/pins/1"


@pytest.mark.parametrize(
    ("pin", "pointer", "code"),
    [
        ({"person_id": "thrid"}, "/pins/0/person_id", "unknown_id"),
        ({"unit_id": "stoves"}, "/pins/0/unit_id", "unknown_id"),
        ({"day": 5}, "/pins/0/day", "no_such_trip"),
        ({"step": 2}, "/pins/0/step", "no_such_trip"),
        ({"day": 6}, "/pins/0", "missing"),
        ({"in": "sled"}, "/pins/0/in", "no_sled_there"),
        ({"person_id": "lead"}, "/pins/0", "missing"),
        ({"count": 0}, "/pins/0/count", "too_small"),
        ({"units": 1}, "/pins/0/units", "unknown_field"),
    ],
)
def test_what_is_unclear_about_a_pin_is_a_fault(
    pin: dict[str, Any], pointer: str, code: str
) -> None:
    """Each fault points at the field of the pin that is to be changed or given."""
    assert (pointer, code) in faults(STOVE | pin)


def test_a_unit_that_is_misspelt_is_asked_about() -> None:
    """The unit that may be meant is named."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(with_pins(STOVE | {"unit_id": "stoves"}))
    assert "Did you mean stove" in caught.value.faults[0].detail


def test_pins_of_somebody_who_stays_at_home_go_too() -> None:
    """They are left out, and what was done says so."""
    second = STOVE | {"person_id": "second", "in": "pack"}
    edited = with_edits_done(with_pins(STOVE, second, without=["third"]))
    assert edited.document["pins"] == [second]
    assert any("pins left out: 1" in note.value for note in edited.notes)


def test_a_replan_begins_without_pins() -> None:
    """What was made by hand for the plan before the start does not bind the one after it."""
    state = {"at": {"day": 1, "moment": "evening"}}
    assert "pins" not in with_state(with_pins(STOVE), {}, "plan_1", state)["request"]


def test_calendars_are_not_sought_around_pins() -> None:
    """A pin is about a trip of one calendar, so the question is refused at the pins."""
    with pytest.raises(RequestFaults) as caught:
        read_calendars({"request": with_pins(STOVE), "days": 7})
    assert [(f.pointer, f.code) for f in caught.value.faults] == [
        ("/request/pins", "pins_fix_the_calendar")
    ]


def test_no_pins_are_no_pins() -> None:
    """A request without pins reads as one without loads made by hand."""
    assert read_pins([], Notes()) == ()


def test_a_pin_on_no_trip_hides_no_fault_of_another():
    """The unit that is not there, the trip that is not clear, and what is wrong elsewhere."""
    late, unknown = STOVE | {"day": 9}, STOVE | {"unit_id": "stoves"}
    assert faults(unknown, late, STOVE | {"day": 6}) == [
        ("/pins/1/day", "no_such_trip"),
        ("/pins/2", "missing"),
        ("/pins/0/unit_id", "unknown_id"),
    ]
    bags = {"set_id": "x", "mass": "1 kg", "volume": "1 L", "fuel": "100 mL", "sets_per_bag": 2}
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(with_pins(late, menu={"night_sets": [bags]}))
    told = [(fault.pointer, fault.code) for fault in caught.value.faults]
    assert ("/pins/0/day", "no_such_trip") in told
    assert ("/menu", "bags_not_whole") in told
