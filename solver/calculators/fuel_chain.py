"""Fuel for melting snow and boiling water, as a chain in which every step can be shown.

Snow at its temperature, melted, warmed or boiled at the camp's pressure, divided by what the stove
brings into the pot, gives the mass and the volume of fuel. The margin is a number of its own and no
reserve; reserves are counted in nights elsewhere. The chain is per stove group or per person,
whatever the litres are: priming is per stove, so odd groups are computed one by one.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators.boiling_point import boiling_point_c, cooking_time_factor
from solver.calculators.fuels import Fuel
from solver.calculators.snow_melt import (
    FUSION_KJ_PER_KG,
    snow_to_water_kj_per_kg,
    vaporising_water_kj_per_kg,
    warming_snow_kj_per_kg,
    warming_water_kj_per_kg,
)

DEFAULT_EFFICIENCY = 0.40
DEFAULT_MARGIN_FRACTION = 0.12
DEFAULT_DRINK_TEMPERATURE_C = 10.0
US_FL_OZ_ML = 29.5735296


@dataclass(frozen=True, slots=True)
class FuelChain:
    """Every number of the chain, in the order in which it is worked out."""

    melted_l: float
    boiled_l: float
    snow_temperature_c: float
    pressure_hpa: float
    boiling_point_c: float
    warming_snow_kj_per_kg: float
    fusion_kj_per_kg: float
    warming_to_drink_kj_per_kg: float
    warming_to_boil_kj_per_kg: float
    melt_kj_per_l: float
    boil_kj_per_l: float
    melting_kj: float
    boiling_kj: float
    steam_kj: float
    simmering_kj: float
    useful_kj: float
    efficiency: float
    lower_heating_value_mj_per_kg: float
    burnt_g: float
    priming_g: float
    fuel_g: float
    density_kg_per_l: float
    fuel_ml: float
    fuel_us_fl_oz: float
    margin_fraction: float
    margin_ml: float
    fuel_with_margin_g: float
    fuel_with_margin_ml: float


def fuel_for_water(
    *,
    melted_l: float,
    boiled_l: float,
    snow_temperature_c: float,
    pressure_hpa: float,
    fuel: Fuel,
    efficiency: float = DEFAULT_EFFICIENCY,
    drink_temperature_c: float = DEFAULT_DRINK_TEMPERATURE_C,
    steam_fraction: float = 0.0,
    simmer_minutes_at_sea_level: float = 0.0,
    simmer_w: float = 250.0,
    priming_g: float = 0.0,
    margin_fraction: float = DEFAULT_MARGIN_FRACTION,
) -> FuelChain:
    """Fuel that turns snow into drinking and boiling water, with every step [kJ, g, mL].

    Range: melted and boiled 0 to 500 L each, snow -40 to 0 degC, pressure 300 to 1100 hPa,
    efficiency 0.10 to 0.75, drink 0 to 60 degC, steam 0 to 0.3 of the boiled water, simmering 0 to
    120 min at 0 to 1500 W, priming 0 to 100 g, margin 0 to 1; refused outside.

    Source: (melted litres x heat to the drinking temperature + boiled litres x heat to the boiling
    point) / (lower heating value x efficiency); status: computed, from ``snow_melt``,
    ``boiling_point`` and ``fuels``. Efficiency 0.40, with a lid and a windscreen:
    memory-unverified, no measurement in the cold field was found; sensible values are 0.25 to 0.60.
    Margin 0.12, simmering at 250 W into the pot: common practice, no source. Priming of 5
    to 10 g a stove and day: memory-unverified.

    Departs: steam, simmering and priming are nothing unless asked for. Simmering is lengthened by
    ``cooking_time_factor``, so that thin air never only saves. Meltwater for boiling starts as
    snow; none is found liquid.

    Independent check: the heat against IAPWS-06 and CoolProp; the result against published and
    common practice, 5 to 8 US fl oz per person-day when all water is melted. The default pattern of
    ``water_need`` gives 5 to 7 before the margin. A cautious polar half litre per person-day (read)
    is twice that: it would mean an efficiency of 0.16 and holds warming, spilling and reserve.
    """
    require_within("melted_l", melted_l, 0.0, 500.0, "L")
    require_within("boiled_l", boiled_l, 0.0, 500.0, "L")
    require_within("efficiency", efficiency, 0.10, 0.75, "of the heating value")
    require_within("drink_temperature_c", drink_temperature_c, 0.0, 60.0, "degC")
    require_within("steam_fraction", steam_fraction, 0.0, 0.3, "of the boiled water")
    require_within("simmer_minutes_at_sea_level", simmer_minutes_at_sea_level, 0.0, 120.0, "min")
    require_within("simmer_w", simmer_w, 0.0, 1500.0, "W")
    require_within("priming_g", priming_g, 0.0, 100.0, "g")
    require_within("margin_fraction", margin_fraction, 0.0, 1.0, "of the fuel")
    boil_c = boiling_point_c(pressure_hpa=pressure_hpa)
    water_boil_c = min(boil_c, 100.0)
    melt_kj_per_l = snow_to_water_kj_per_kg(
        snow_temperature_c=snow_temperature_c, water_temperature_c=drink_temperature_c
    )
    boil_kj_per_l = snow_to_water_kj_per_kg(
        snow_temperature_c=snow_temperature_c, water_temperature_c=water_boil_c
    )
    steam_l = boiled_l * steam_fraction
    steam_kj = steam_l * vaporising_water_kj_per_kg(temperature_c=max(70.0, water_boil_c))
    simmer_s = 60.0 * simmer_minutes_at_sea_level
    if simmer_s:
        simmer_s *= cooking_time_factor(boiling_point_c=boil_c)
    simmering_kj = simmer_s * simmer_w / 1000.0
    melting_kj, boiling_kj = melted_l * melt_kj_per_l, boiled_l * boil_kj_per_l
    useful_kj = melting_kj + boiling_kj + steam_kj + simmering_kj
    burnt_g = useful_kj / (fuel.lower_heating_value_mj_per_kg * efficiency)
    fuel_g = burnt_g + priming_g
    fuel_ml = fuel_g / fuel.density_kg_per_l
    return FuelChain(
        melted_l=melted_l,
        boiled_l=boiled_l,
        snow_temperature_c=snow_temperature_c,
        pressure_hpa=pressure_hpa,
        boiling_point_c=boil_c,
        warming_snow_kj_per_kg=warming_snow_kj_per_kg(snow_temperature_c=snow_temperature_c),
        fusion_kj_per_kg=FUSION_KJ_PER_KG,
        warming_to_drink_kj_per_kg=warming_water_kj_per_kg(from_c=0.0, to_c=drink_temperature_c),
        warming_to_boil_kj_per_kg=warming_water_kj_per_kg(from_c=0.0, to_c=water_boil_c),
        melt_kj_per_l=melt_kj_per_l,
        boil_kj_per_l=boil_kj_per_l,
        melting_kj=melting_kj,
        boiling_kj=boiling_kj,
        steam_kj=steam_kj,
        simmering_kj=simmering_kj,
        useful_kj=useful_kj,
        efficiency=efficiency,
        lower_heating_value_mj_per_kg=fuel.lower_heating_value_mj_per_kg,
        burnt_g=burnt_g,
        priming_g=priming_g,
        fuel_g=fuel_g,
        density_kg_per_l=fuel.density_kg_per_l,
        fuel_ml=fuel_ml,
        fuel_us_fl_oz=fuel_ml / US_FL_OZ_ML,
        margin_fraction=margin_fraction,
        margin_ml=fuel_ml * margin_fraction,
        fuel_with_margin_g=fuel_g * (1.0 + margin_fraction),
        fuel_with_margin_ml=fuel_ml * (1.0 + margin_fraction),
    )
