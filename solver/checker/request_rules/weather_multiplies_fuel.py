"""Weather multiplies fuel: cold, wind and melting take far more fuel than a maker's figure.

Wherever a stove burns on any night. The amount is `weather_fuel_percent`, by how much the figure
that a maker gives for boiling water is to be multiplied.

Documents: stove-basics.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import cooking_nights
from solver.plan import Finding

RULE = "weather_multiplies_fuel"


def weather_multiplies_fuel(facts: Facts) -> Iterator[Finding]:
    """A word on what a maker's figure is worth in the cold, once for the whole trip."""
    if cooking_nights(facts):
        percent = facts.problem.rules.whole("weather_fuel_percent")
        yield Finding(
            RULE,
            f"cold, wind and melting snow take a stove to {percent} % of the fuel that its maker "
            "states for boiling, or more: measure what is burnt each day and plan again",
            percent,
            "%",
        )
