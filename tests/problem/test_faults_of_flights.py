"""Faults of flights, early leaving, clocks and the facts that rules on the request ask for."""

from dataclasses import replace

import pytest

from solver.problem import (
    Calendar,
    Evacuation,
    Flight,
    FlightDirection,
    Problem,
    ReserveKind,
)
from solver.problem.faults import find_faults
from tests.problem.small_world import only_fault, small_world

IN, OUT = FlightDirection.FLY_IN, FlightDirection.FLY_OUT


def with_flights(*flights: Flight) -> Problem:
    """The small world with flights."""
    return replace(small_world(), flights=flights)


def with_day(**changes: object) -> Problem:
    """The small world with its second day changed."""
    world = small_world()
    days = list(world.calendar.days)
    days[1] = replace(days[1], **changes)
    return replace(world, calendar=Calendar(tuple(days)))


def with_reserve(**changes: object) -> Problem:
    """The small world with its first reserve changed."""
    world = small_world()
    first, *others = world.reserves
    return replace(world, reserves=(replace(first, **changes), *others))


@pytest.mark.parametrize(
    ("flight", "field", "code"),
    [
        (Flight("f", IN, 0, 3), "payload_g", "too_small"),
        (Flight("f", IN, 1, -1), "seats", "too_small"),
        (Flight("f", IN, 1, 3, volume_ml=-1), "volume_ml", "too_small"),
        (Flight("f", IN, 1, 3, longest_mm=0), "longest_mm", "too_small"),
    ],
)
def test_a_flight_takes_something(flight, field, code):
    """A payload and a length are more than 0, seats and room at least 0."""
    fault = only_fault(with_flights(flight))
    assert (fault.where, fault.code) == (("flights", 0, field), code)


def test_the_least_that_a_flight_can_take_is_no_fault():
    """A gram, no seat, no room and a millimetre are figures like others."""
    assert find_faults(with_flights(Flight("f", IN, 1, 0, 0, 1, ()))) == ()


@pytest.mark.parametrize(
    ("flights", "where", "code"),
    [
        ([("a", IN, ("zoe",))], ("flights", 0, "person_ids", 0), "unknown_id"),
        ([("a", IN, ("ann", "ann"))], ("flights", 0, "person_ids", 1), "flies_twice"),
        (
            [("a", IN, ("ann",)), ("b", IN, ("bo", "ann"))],
            ("flights", 1, "person_ids", 1),
            "flies_twice",
        ),
        ([("a", IN, None), ("a", OUT, None)], ("flights", 1, "flight_id"), "duplicate_id"),
    ],
)
def test_people_fly_once_each_way(flights, where, code):
    """People of a flight are of the roster, and on one flight of a direction."""
    told = [Flight(name, way, 300_000, 3, person_ids=ids) for name, way, ids in flights]
    fault = only_fault(with_flights(*told))
    assert (fault.where, fault.code) == (where, code)


def test_flying_in_and_out_is_no_fault():
    """The same person may be on a flight in and on a flight out."""
    flights = (
        Flight("a", IN, 300_000, 3, person_ids=("ann",)),
        Flight("b", OUT, 300_000, 3, person_ids=("ann",)),
    )
    assert find_faults(with_flights(*flights)) == ()


@pytest.mark.parametrize(
    ("wishes", "where", "code"),
    [
        ([Evacuation("zoe")], ("evacuations", 0, "person_id"), "unknown_id"),
        ([Evacuation("ann", 0)], ("evacuations", 0, "day"), "no_such_day"),
        ([Evacuation("ann", 5)], ("evacuations", 0, "day"), "no_such_day"),
        ([Evacuation("ann"), Evacuation("ann")], ("evacuations", 1), "duplicate_id"),
    ],
)
def test_early_leaving_is_of_somebody_on_a_day_of_the_trip(wishes, where, code):
    """A wish about leaving early names somebody known, a day that there is, and stands once."""
    fault = only_fault(replace(small_world(), evacuations=tuple(wishes)))
    assert (fault.where, fault.code) == (where, code)


def test_the_first_and_the_last_day_are_days():
    """Somebody may leave early on any day of the trip, the last included."""
    wishes = (Evacuation("ann", 1), Evacuation("ann", 4), Evacuation("ann"))
    assert find_faults(replace(small_world(), evacuations=wishes)) == ()


@pytest.mark.parametrize(
    ("changes", "field", "code"),
    [
        ({"start_hour": -0.5}, "start_hour", "out_of_range"),
        ({"start_hour": 24.0}, "start_hour", "out_of_range"),
        ({"turn_round_hour": 24.0}, "turn_round_hour", "out_of_range"),
        ({"start_hour": 7.0, "turn_round_hour": 7.0}, "turn_round_hour", "turns_round_too_soon"),
    ],
)
def test_a_day_has_a_clock(changes, field, code):
    """Times are of one day, and people turn round after they start."""
    fault = only_fault(with_day(**changes))
    assert (fault.where, fault.code) == (("calendar", "days", 1, field), code)


def test_midnight_and_a_minute_later_are_times():
    """A day may start at midnight and be turned round any time after."""
    assert find_faults(with_day(start_hour=0.0, turn_round_hour=1 / 60)) == ()


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"kind": ReserveKind.EVACUATION}, "people_of_reserve"),
        ({"kind": ReserveKind.EVACUATION, "people": 0}, "too_small"),
        ({"kind": ReserveKind.STORM, "people": 2}, "people_of_reserve"),
    ],
)
def test_only_evacuation_reserves_are_for_a_number_of_people(changes, code):
    """An evacuation reserve says for how many it is, and no other kind does."""
    fault = only_fault(with_reserve(**changes))
    assert (fault.where, fault.code) == (("reserves", 0, "people"), code)


@pytest.mark.parametrize("field", ["load_limit_g", "summit_water_g", "flying_mass_g"])
def test_facts_of_people_are_not_below_what_makes_sense(field):
    """A load limit and summit water may be nought, a flying mass may not; none is below."""
    least = 1 if field == "flying_mass_g" else 0
    world = small_world()
    first, *others = world.roster
    for value, codes in ((least, []), (least - 1, ["too_small"])):
        roster = (replace(first, **{field: value}), *others)
        faults = find_faults(replace(world, roster=roster))
        assert [(f.where, f.code) for f in faults] == [
            (("roster", 0, field), code) for code in codes
        ]
