"""One plan of two: what was done up to a moment, and what is planned from there."""

from __future__ import annotations

from solver.plan import Plan
from solver.problem import FlightDirection, Problem


def joined(problem: Problem, before: Plan, after: Plan) -> Plan:
    """The trips, nights and flights of one plan up to the problem's moment, then of the other.

    Both have a trip for each of the calendar's, `before` at least for those that are over.
    """
    history = problem.history
    if history is None:
        return after
    inward = {f.flight_id for f in problem.flights if f.direction is FlightDirection.FLY_IN}
    return Plan(
        trips=(
            *(trip for trip in before.trips if trip.day <= history.day),
            *(trip for trip in after.trips if trip.day > history.day),
        ),
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


def _counted_day(problem: Problem) -> int:
    """The first day whose night ends with what was counted or comes after it."""
    history = problem.history
    return 0 if history is None else history.nights + (0 if history.after_night else 1)
