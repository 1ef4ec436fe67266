"""Storm reserve planned: each camp can feed those who sleep there through a storm.

For each cook group and each place where it sleeps, other than the start: nights of its storm
reserves there >= `storm_nights_high` at the highest of these places, `storm_nights_low` at the
others. The amount is in nights.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.planned_reserves import lacking, nights_planned, slept_at
from solver.plan import Finding
from solver.problem import ReserveKind

RULE = "storm_reserve_planned"


def storm_reserve_planned(facts: Facts) -> Iterator[Finding]:
    """Nights of storm reserve that camps lack."""
    problem = facts.problem
    low = problem.rules.whole("storm_nights_low")
    high = problem.rules.whole("storm_nights_high")
    metres = {place.place_id: place.elevation_m for place in problem.route.places}
    for group in problem.cook_groups:
        camps = [p for p in dict.fromkeys(slept_at(facts, group)) if p != problem.start_place]
        highest_m = max((metres[camp] for camp in camps), default=0)
        for camp in camps:
            least = high if metres[camp] == highest_m else low
            planned = nights_planned(facts, group, camp, ReserveKind.STORM)
            if planned < least:
                yield lacking(
                    RULE, group, camp, word="a storm reserve", planned=planned, least=least
                )
