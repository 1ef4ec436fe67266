"""Fuel covers water: a night's fuel is enough for the water that is to be melted and boiled.

Where litres melted and boiled are given, for each night set at each place where it is eaten:
fuel_ml >= what a stove with the given efficiency, else `good_stove_percent`, burns to melt and
boil them at the place's elevation, out of snow as cold as given, else just at freezing, without
priming, simmering or margin. The amount is in millilitres, rounded up, found once a set for its
worst place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from solver.calculators.atmosphere import standard_pressure_hpa
from solver.calculators.canister_gas import GasBlend
from solver.calculators.fuel_chain import fuel_for_water
from solver.calculators.fuels import Fuel, fuel_named, gas_blend_fuel
from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import SetAt, different_sets, sets_eaten
from solver.plan import Finding
from solver.problem import FuelKind, Problem

RULE = "fuel_covers_water"

_USUAL_BLEND = GasBlend(propane_mass_fraction=0.2, isobutane_mass_fraction=0.8)
"""Blends differ by one part in a hundred in the heat of a gram."""


def fuel_covers_water(facts: Facts) -> Iterator[Finding]:
    """Night sets with less fuel than the water alone takes."""
    problem = facts.problem
    if problem.conditions.melted_l is None or problem.conditions.boiled_l is None:
        return
    uses = sets_eaten(facts)
    for night_set in different_sets(uses):
        theirs = [use for use in uses if use.night_set == night_set]
        need_ml, worst = max(
            ((_need_ml(problem, use), use) for use in theirs), key=lambda pair: pair[0]
        )
        missing = need_ml - night_set.fuel_ml
        if missing > 0:
            yield Finding(
                RULE,
                f"{worst.words} has {night_set.fuel_ml} mL of fuel for a person and night, and "
                f"the water alone takes {need_ml} mL with a good stove",
                missing,
                "mL",
                worst.where,
                (f"plan at least {missing} mL more for a person and night",),
            )


def _need_ml(problem: Problem, use: SetAt) -> int:
    """Least fuel for one person's water of a night [mL]."""
    given = problem.conditions
    efficiency = given.stove_efficiency
    if efficiency is None:
        efficiency = problem.rules.number("good_stove_percent") / 100
    snow_c = 0.0 if given.snow_temperature_c is None else given.snow_temperature_c
    chain = fuel_for_water(
        melted_l=given.melted_l or 0.0,
        boiled_l=given.boiled_l or 0.0,
        snow_temperature_c=min(0.0, max(-40.0, snow_c)),
        pressure_hpa=standard_pressure_hpa(geometric_height_m=use.place.elevation_m),
        fuel=replace(_fuel(problem), density_kg_per_l=problem.fuel_density_g_per_l / 1000),
        efficiency=min(0.75, max(0.10, efficiency)),
        margin_fraction=0.0,
    )
    return math.ceil(chain.fuel_ml - 1e-6)


def _fuel(problem: Problem) -> Fuel:
    kind = problem.conditions.fuel_kind
    if kind is FuelKind.CANISTER_GAS:
        return gas_blend_fuel(blend=_USUAL_BLEND)
    return fuel_named(name="kerosene" if kind is FuelKind.KEROSENE else "white_gas")
