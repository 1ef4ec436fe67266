"""One plan of two: what was done up to a moment, and what is planned from there."""

from __future__ import annotations

from solver.plan import Plan, TripLoads
from solver.problem import FlightDirection, Problem


def joined(problem: Problem, before: Plan, after: Plan) -> Plan:
    """The trips, nights and flights of one plan up to the problem's moment, then of the other.

    `after` has a trip for each of the calendar's. One that is over and that `before` does not know
    was travelled otherwise than planned: what was moved on it, the count says.
    """
    history = problem.history
    if history is None:
        return after
    inward = {f.flight_id for f in problem.flights if f.direction is FlightDirection.FLY_IN}
    made = {_way(trip): trip for trip in before.trips if trip.day <= history.day}
    return Plan(
        trips=tuple(made.get(_way(trip), trip) for trip in after.trips),
        stock=(
            *(entry for entry in before.stock if entry.day < _counted_day(problem)),
            *(entry for entry in after.stock if entry.day >= _counted_day(problem)),
        ),
        flights=(
            *(flight for flight in before.flights if flight.flight_id in inward),
            *(flight for flight in after.flights if flight.flight_id not in inward),
        ),
        keepers=after.keepers,
    )


def _way(trip: TripLoads) -> tuple[int, int, str, str, frozenset[str]]:
    people = frozenset(load.person_id for load in trip.loads)
    return trip.day, trip.step, trip.from_place, trip.to_place, people


def _counted_day(problem: Problem) -> int:
    """The first day whose night ends with what was counted or comes after it."""
    history = problem.history
    return 0 if history is None else history.nights + (0 if history.after_night else 1)
