"""A former plan in a request: its trips read, its id alone left to whoever accepts it."""

import copy

import pytest

from api_schema.plan_request import OptionsRequest
from service.errors import RequestFaults
from service.translate.read.near_plan import read_near_plan
from service.translate.read.notes import Notes
from service.translate.read.requests import read_plan_request
from service.translate.write.plan import write_plan
from tests.service.one_night_out import PLAN, REQUEST
from tests.service.wire import wire

PLAN_ID = "plan_01m894y1x3y07966fb6kk0wj7j"


def _with(near: dict[str, object], **options: object) -> dict[str, object]:
    return copy.deepcopy(REQUEST) | {"options": {"near_plan": near, **options}}


def test_the_trips_of_an_answer_are_a_former_plan():
    """Each load keeps its units and counts; masses play no part."""
    trips = wire(write_plan(read_plan_request(REQUEST), PLAN))["trips"]
    near = read_plan_request(_with({"trips": trips})).near
    assert near is not None
    for ours, theirs in zip(near.trips, PLAN.trips, strict=True):
        assert (ours.day, ours.from_place, ours.to_place) == (
            theirs.day, theirs.from_place, theirs.to_place,
        )  # fmt: skip
        for load, told in zip(ours.loads, theirs.loads, strict=True):
            assert [(one.unit_id, one.count) for one in load.pack] == [
                (one.unit_id, one.count) for one in told.pack
            ]


def test_an_id_alone_says_nothing_until_the_request_is_accepted():
    """Who only asks for requirements needs no former plan."""
    assert read_plan_request(_with({"plan_id": PLAN_ID})).near is None


def test_neither_id_nor_trips_is_a_fault():
    """A former plan that is not there cannot be stayed near to."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(_with({}))
    assert [fault.pointer for fault in caught.value.faults] == ["/options/near_plan"]


def test_tolerance_and_the_share_of_light_trips_are_read():
    """Both are percentages, on the grid of 1/10,000; without them 0.5 and 90 %."""
    limits = read_plan_request(
        _with({"plan_id": PLAN_ID, "tolerance": "1.25 %"}, light_trips_up_to="80 %")
    ).limits
    assert (limits.near_tolerance, limits.light_trip_share) == (125, 8_000)
    standard = read_plan_request(REQUEST).limits
    assert (standard.near_tolerance, standard.light_trip_share) == (50, 9_000)


def test_without_a_former_plan_there_is_none():
    """Options that name none leave the solver free, and note no fault."""
    notes = Notes()
    assert read_near_plan(OptionsRequest(), notes) is None
    assert notes.faults == []
