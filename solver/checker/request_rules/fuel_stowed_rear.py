"""Fuel stowed rear: on a sled fuel rides at the rear, upright and outside the food.

Wherever sleds are listed and a stove burns on any night. The amount is how many sleds there are.

Documents: polar-food-fuel, polar-report-2012.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import cooking_nights
from solver.plan import Finding

RULE = "fuel_stowed_rear"


def fuel_stowed_rear(facts: Facts) -> Iterator[Finding]:
    """A word on stowing fuel, once for all sleds."""
    sleds = facts.problem.sleds
    if sleds and cooking_nights(facts):
        yield Finding(
            RULE,
            "stow fuel at the rear of a sled, upright, outside the food bag, and look at the caps "
            "at each stop; heavy things low and in the middle",
            len(sleds),
            "sleds",
        )
