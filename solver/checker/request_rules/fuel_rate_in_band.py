"""Fuel rate in band: a person's night burns about what melting snow and cooking burn.

For each night set that is eaten, before any margin: `least_liquid_fuel_ml` <= fuel_ml <=
`most_liquid_fuel_ml`; where the stoves burn canister gas, its mass is held to `least_gas_g` and
`most_gas_g` instead. The amount is how far it is outside. By arithmetic 2.2 L melted and 2.2 L
boiled take 154 to 242 mL of white gas; 76 g of gas was read of a trip with some open water.

Documents: polar-manual, polar-food-fuel, polar-report-2012, polar-stove, backcountry-tips,
traverse-planning.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import burns_gas
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_eaten
from solver.plan import Finding
from solver.quantities import fuel_mass_nearest

RULE = "fuel_rate_in_band"


def fuel_rate_in_band(facts: Facts) -> Iterator[Finding]:
    """Night sets whose fuel is little or much for melting snow and cooking."""
    problem = facts.problem
    gas = burns_gas(facts)
    unit = "g" if gas else "mL"
    least = problem.rules.whole("least_gas_g" if gas else "least_liquid_fuel_ml")
    most = problem.rules.whole("most_gas_g" if gas else "most_liquid_fuel_ml")
    for night_set in different_sets(sets_eaten(facts)):
        rate = night_set.fuel_ml
        if gas:
            density = problem.fuel_density_g_per_l
            rate = fuel_mass_nearest(volume_ml=rate, density_g_per_l=density)
        off = max(least - rate, rate - most)
        if off > 0:
            yield Finding(
                RULE,
                f"{set_words(night_set)} burns {rate} {unit} for a person and night, in practice "
                f"it is {least} to {most} {unit} where all water is melted",
                off,
                unit,
                set_where(night_set),
                ("leave the set's fuel out, so that it is computed", "measure what is burnt"),
            )
