"""How cold fuel gets where people sleep, and whether any is burnt."""

from __future__ import annotations

import math

from solver.checker.ledger.facts import Facts
from solver.problem import FuelKind, Purpose


def burns_gas(facts: Facts) -> bool:
    """Whether the stoves are given as burning canister gas; else liquid fuel is taken."""
    return facts.problem.conditions.fuel_kind is FuelKind.CANISTER_GAS


def cooking_nights(facts: Facts) -> tuple[tuple[int, str], ...]:
    """Nights and places with a stove burning, each pair once; all where the gear lists fuel."""
    spare = any(item.purpose is Purpose.FUEL for item in facts.problem.gear)
    burning = (m for m in facts.meals if spare or m.night_set.fuel_ml > 0)
    return tuple(dict.fromkeys((m.day, m.place_id) for m in burning))


def gas_temperatures(facts: Facts) -> tuple[tuple[str, float], ...]:
    """Each place where gas is burnt, with how cold it is there, where that is given [degC]."""
    if not burns_gas(facts):
        return ()
    given = facts.problem.conditions.canister_temperature_c
    found = []
    for place_id in dict.fromkeys(place for _, place in cooking_nights(facts)):
        night = facts.problem.route.place(place_id).night_temperature_c
        gas_c = night if given is None else given
        if gas_c is not None:
            found.append((place_id, gas_c))
    return tuple(found)


def degrees_up(difference_c: float) -> int:
    """Whole degrees that hold a difference of temperature, at least one [degC]."""
    return max(1, math.ceil(difference_c - 1e-6))
