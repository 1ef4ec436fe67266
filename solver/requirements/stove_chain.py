"""The chain from snow to fuel of one person and night at a camp, with what went into it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from solver.calculators.canister_gas import GasBlend
from solver.calculators.fuel_chain import (
    DEFAULT_DRINK_TEMPERATURE_C,
    DEFAULT_EFFICIENCY,
    FuelChain,
    fuel_for_water,
)
from solver.calculators.fuels import Fuel, fuel_named, gas_blend_fuel
from solver.problem import Conditions, FuelKind, RuleSettings
from solver.requirements.figures import Input
from solver.requirements.surroundings import (
    as_given,
    as_given_or,
    assumed,
    night_temperature,
    pressure,
    snow_temperature,
)
from solver.requirements.water import water_pattern

DEFAULT_BLEND = GasBlend(propane_mass_fraction=0.2, isobutane_mass_fraction=0.8)


SIMMER_MINUTES = 2.0
"""One person's share of keeping a pot at the boil [min at sea level]; longer in thin air.

Without it a lower boiling point would only save fuel, though food takes longer to cook there.
"""

SIMMER_SOURCE = "five minutes for a kitchen of two or three; common practice, no source"

PRIMING_G = 2.0
"""One person's share of priming and of what stays in the stove [g]."""

PRIMING_SOURCE = "5 to 10 g a stove and day, shared by three; from memory, unverified"


@dataclass(frozen=True, slots=True)
class CampChain:
    """A fuel chain per person and night, before any margin, and its inputs in order."""

    chain: FuelChain
    fuel: Fuel
    inputs: tuple[Input, ...]


def blend_of(conditions: Conditions) -> GasBlend:
    """The gas in the canisters; a fifth propane, the rest isobutane, where no share is given.

    Raises ValueError where the given shares do not add up to 1.
    """
    shares = (conditions.propane_share, conditions.isobutane_share, conditions.n_butane_share)
    if all(share is None for share in shares):
        return DEFAULT_BLEND
    return GasBlend(*(share or 0.0 for share in shares))


def fuel_of(conditions: Conditions) -> Fuel:
    """What the stoves burn, white gas by default; ValueError for a blend that does not add up."""
    if conditions.fuel_kind is FuelKind.CANISTER_GAS:
        return gas_blend_fuel(blend=blend_of(conditions))
    if conditions.fuel_kind is FuelKind.KEROSENE:
        return fuel_named(name="kerosene")
    return fuel_named(name="white_gas")


def camp_chain(
    *,
    elevation_m: int,
    night_temperature_c: float | None,
    storm: bool,
    density_g_per_l: int,
    conditions: Conditions,
    rules: RuleSettings,
) -> CampChain:
    """Fuel of one person and night at a camp, with every step [kJ, g, mL].

    Millilitres are those of the density that the plan weighs fuel with, so that its grams are
    the chain's. Raises ValueError where an input is out of a formula's range.
    """
    water = water_pattern(elevation_m=elevation_m, storm=storm, conditions=conditions, rules=rules)
    night = night_temperature(elevation_m=elevation_m, night_temperature_c=night_temperature_c)
    snow = snow_temperature(night, conditions)
    air = pressure(elevation_m=elevation_m)
    efficiency = as_given_or("efficiency", conditions.stove_efficiency, DEFAULT_EFFICIENCY, "-")
    fuel = fuel_of(conditions)
    is_gas = conditions.fuel_kind is FuelKind.CANISTER_GAS
    given_simmering, given_priming = conditions.simmer_minutes, conditions.priming_g
    simmering = as_given_or("simmering", given_simmering, SIMMER_MINUTES, "min at sea level")
    priming = as_given_or("priming", given_priming, 0.0 if is_gas else PRIMING_G, "g")
    chain = fuel_for_water(
        melted_l=float(water.melted.value),
        boiled_l=float(water.boiled.value),
        snow_temperature_c=float(snow.value),
        pressure_hpa=float(air.value),
        fuel=replace(fuel, density_kg_per_l=density_g_per_l / 1000),
        efficiency=float(efficiency.value),
        simmer_minutes_at_sea_level=float(simmering.value),
        priming_g=float(priming.value),
        margin_fraction=0.0,
    )
    return CampChain(
        chain=chain,
        fuel=fuel,
        inputs=(
            as_given("elevation", elevation_m, "m"),
            night,
            snow,
            water.melted,
            water.boiled,
            air,
            assumed("drink_temperature", DEFAULT_DRINK_TEMPERATURE_C, "degC"),
            efficiency
            if not efficiency.is_default
            else replace(efficiency, source="from memory, unverified; with lid and windscreen"),
            Input(
                "fuel", fuel.name, "", conditions.fuel_kind is None, "the usual fuel in the cold"
            ),
            assumed(
                "lower_heating_value", fuel.lower_heating_value_mj_per_kg, "MJ/kg", fuel.source
            ),
            as_given("density", density_g_per_l, "g/L"),
            simmering if given_simmering is not None else replace(simmering, source=SIMMER_SOURCE),
            priming if given_priming is not None else replace(priming, source=PRIMING_SOURCE),
        ),
    )


def chain_fuel_ml(
    *,
    elevation_m: int,
    night_temperature_c: float | None,
    storm: bool,
    density_g_per_l: int,
    conditions: Conditions,
    rules: RuleSettings,
) -> int:
    """Fuel of one person and night before any margin, rounded up [mL].

    For a night set whose fuel the request leaves open. Raises ValueError where an input is out
    of a formula's range, with the range in its words.
    """
    found = camp_chain(
        elevation_m=elevation_m,
        night_temperature_c=night_temperature_c,
        storm=storm,
        density_g_per_l=density_g_per_l,
        conditions=conditions,
        rules=rules,
    )
    return math.ceil(found.chain.fuel_ml)
