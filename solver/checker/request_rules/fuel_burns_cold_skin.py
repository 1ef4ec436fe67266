"""Fuel burns cold skin: liquid fuel as cold as the night freezes skin at a touch.

Where liquid fuel is burnt: nights at places colder than `cold_fuel_c`, or whose cold is not
given. The amount is how many such nights and places there are, in one finding.

Documents: polar-food-fuel, stove-safety, cold-riding.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import burns_gas, cooking_nights
from solver.plan import Finding

RULE = "fuel_burns_cold_skin"


def fuel_burns_cold_skin(facts: Facts) -> Iterator[Finding]:
    """A word on cold fuel, where nights are cold or may be."""
    if burns_gas(facts):
        return
    limit = facts.problem.rules.number("cold_fuel_c")
    cold = []
    for day, place_id in cooking_nights(facts):
        night_c = facts.problem.route.place(place_id).night_temperature_c
        if night_c is None or night_c < limit:
            cold.append((day, place_id))
    if cold:
        day, place = cold[0]
        yield Finding(
            RULE,
            f"on {len(cold)} nights, first on day {day} at {place}, fuel is or may be colder than "
            f"{limit:g} degC and freezes skin at once: pour it with gloves",
            len(cold),
            "nights",
            (("day", day), ("place", place)),
        )
