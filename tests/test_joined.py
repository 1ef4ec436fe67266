"""One plan of two: trips, nights and flights up to the moment, then those of the other."""

from dataclasses import replace

from solver.joined import joined
from solver.plan import FlightLoad, NightStock, Plan, TripLoads
from solver.problem import Flight, FlightDirection, History
from tests.rules.worlds import world

FLIGHTS = (
    Flight("in", FlightDirection.FLY_IN, 400_000, 4),
    Flight("out", FlightDirection.FLY_OUT, 400_000, 4),
)


def _plan(mark):
    return Plan(
        trips=tuple(TripLoads(day, 1, mark, mark, ()) for day in (1, 2, 3)),
        stock=tuple(NightStock(day, mark, ()) for day in (0, 1, 2, 3)),
        flights=(FlightLoad("in", (mark,), ()), FlightLoad("out", (mark,), ())),
    )


def _marks(history):
    problem = replace(world("strip-c1 c1 c1-strip"), history=history, flights=FLIGHTS)
    plan = joined(problem, _plan("before"), _plan("after"))
    trips = [trip.from_place for trip in plan.trips]
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
