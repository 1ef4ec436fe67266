"""One plan of two: trips, nights and flights up to the moment, then those of the other."""

from dataclasses import replace

from solver.joined import joined
from solver.plan import FlightLoad, Load, NightStock, Plan, TripLoads
from solver.problem import Flight, FlightDirection, History
from tests.rules.worlds import world

FLIGHTS = (
    Flight("in", FlightDirection.FLY_IN, 400_000, 4),
    Flight("out", FlightDirection.FLY_OUT, 400_000, 4),
)


def _plan(mark):
    return Plan(
        trips=tuple(
            TripLoads(day, 1, "a", "b", (Load("m1", n, 0, ()),)) for day, n in _water(mark)
        ),
        stock=tuple(NightStock(day, mark, ()) for day in (0, 1, 2, 3)),
        flights=(FlightLoad("in", (mark,), ()), FlightLoad("out", (mark,), ())),
    )


def _water(mark):
    """By day, 1 g of water in the plan before and 2 g in the one after: trips have no marks."""
    return [(day, 1 if mark == "before" else 2) for day in (1, 2, 3)]


def _marks(history):
    problem = replace(world("strip-c1 c1 c1-strip"), history=history, flights=FLIGHTS)
    plan = joined(problem, _plan("before"), _plan("after"))
    trips = ["before" if trip.loads[0].water_g == 1 else "after" for trip in plan.trips]
    nights = [entry.place_id for entry in plan.stock]
    return trips, nights, [flight.person_ids[0] for flight in plan.flights]


def test_in_the_evening_the_night_is_still_to_come():
    """Trips of day 1 are done, its night is planned; who flew in flew in."""
    trips, nights, flown = _marks(History(1))
    assert trips == ["before", "after", "after"]
    assert nights == ["before", "after", "after", "after"]
    assert flown == ["before", "after"]


def test_in_the_morning_the_night_is_as_counted():
    """What stands after a night that is over is what was counted, which the new plan says."""
    _, nights, _ = _marks(History(1, after_night=True))
    assert nights == ["before", "after", "after", "after"]
    _, later, _ = _marks(History(2, after_night=True))
    assert later == ["before", "before", "after", "after"]


def test_without_a_history_there_is_one_plan():
    """Before the start the new plan is the plan."""
    trips, nights, flown = _marks(None)
    assert {*trips, *nights, *flown} == {"after"}


def test_a_trip_that_was_not_planned_is_that_of_the_calendar():
    """What was travelled otherwise has the loads that the new plan says of it: none."""
    problem = replace(world("strip-c1 c1 c1-strip"), history=History(2))
    other = replace(
        _plan("after"), trips=(TripLoads(1, 1, "a", "c", ()), *_plan("after").trips[1:])
    )
    assert joined(problem, _plan("before"), other).trips[0].to_place == "c"
