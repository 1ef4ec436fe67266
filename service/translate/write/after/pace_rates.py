"""Hours that legs really took, and the factor for loads of the published methods."""

from __future__ import annotations

import math
from collections.abc import Sequence

from service.translate.write.after.days import Measured, by_leg, mean_planned
from service.translate.write.after.rates import FEW_TRIPS, Rates, upwards
from solver.problem import Direction

_LEAST_FACTOR, _MOST_FACTOR = 1.0, 5.0
"""The ends of what a request takes."""


def pace_rates(rates: Rates, trips: tuple[Measured, ...]) -> None:
    """Add the hours of each leg that was measured, and the factor for the other legs."""
    legs = [leg.leg_id for leg in rates.report.problem.route.legs]
    for (leg_id, direction), ours in by_leg(trips).items():
        measured = sum(trip.measured_h for trip in ours) / len(ours)
        planned = mean_planned(ours)
        out = direction is Direction.OUTBOUND
        rates.add(
            f"/route/legs/{legs.index(leg_id)}/hours_{'outbound' if out else 'homeward'}",
            upwards(measured * 60, "min"),
            None if planned is None else upwards(planned * 60, "min"),
            None if not planned else measured / planned,
            based_on=_trips(len(ours)),
            says_little=len(ours) < FEW_TRIPS,
            why="The mean of the trips that were measured, loads and snow as they were.",
        )
    _factor(rates, [trip for trip in trips if _factor_of(trip) is not None])


def _factor_of(trip: Measured) -> float | None:
    """The travel factor in the planned hours of a trip; None where the hours were given."""
    inputs = () if trip.planned is None else trip.planned.inputs
    return next((float(one.value) for one in inputs if one.name == "travel_factor"), None)


def _factor(rates: Rates, trips: Sequence[Measured]) -> None:
    """One factor for all legs whose hours come from a method."""
    light_h = planned_h = 0.0
    for trip in trips:
        if trip.planned is not None:
            planned_h += trip.planned.value
            light_h += trip.planned.value / (_factor_of(trip) or 1.0)
    if not light_h:
        return
    measured_h = sum(trip.measured_h for trip in trips)
    factor = math.ceil(measured_h / light_h * 100 - 1e-9) / 100
    if not _LEAST_FACTOR <= factor <= _MOST_FACTOR:
        rates.not_given.append(
            f"A travel factor of {factor:g}: a request takes one from 1 to 5. Give the hours of "
            "the legs, or ask for another method."
        )
        return
    rates.add(
        "/conditions/travel_factor",
        factor,
        round(planned_h / light_h, 2),
        measured_h / planned_h,
        based_on=_trips(len(trips)),
        says_little=len(trips) < FEW_TRIPS,
        why="For legs without hours of their own: measured hours divided by what the method "
        "gives without loads.",
    )


def _trips(number: int) -> str:
    return f"{number} trip{'' if number == 1 else 's'}"
