"""Cold clothing listed: who goes where it is very cold has overboots or the like.

For each person whose clothing is given, and who sleeps at or travels to a place whose night is
colder than the limit: items of cold clothing owned >= 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.personal import lists_clothing, nights_of, trips_of
from solver.plan import Finding
from solver.problem import Purpose

RULE = "cold_clothing_listed"


def cold_clothing_listed(facts: Facts) -> Iterator[Finding]:
    """People without cold clothing, with the first place that asks for it."""
    problem = facts.problem
    limit_c = problem.rules.number("overboots_below_c")
    cold = {
        place.place_id: place.night_temperature_c
        for place in problem.route.places
        if place.night_temperature_c is not None and place.night_temperature_c < limit_c
    }
    owners = {item.owner_id for item in listed_items(facts, Purpose.COLD_CLOTHING)}
    for person in problem.roster:
        name = person.person_id
        if name in owners or not lists_clothing(facts, name):
            continue
        visited = [*(t.to_place for t in trips_of(facts, name)), *nights_of(facts, name)]
        first = next((place for place in visited if place in cold), None)
        if first is not None:
            yield Finding(
                RULE,
                f"{name} goes to {first}, where nights are at {cold[first]:g} °C, and has no cold "
                f"clothing listed, which is needed below {limit_c:g} °C",
                1,
                "units",
                (("person", name), ("place", first)),
                (
                    f"overboots and insulated trousers of {name} in the gear",
                    "double boots that are warm enough for that, listed as cold clothing",
                ),
            )
