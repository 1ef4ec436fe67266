"""Heat that snow needs on its way to warm or boiling water."""

from __future__ import annotations

from solver.calculators._ranges import require_within

FUSION_KJ_PER_KG = 333.4
WATER_HEAT_CAPACITY_KJ_PER_KG_K = 4.19

_SNOW = "The fit of the heat capacity of ice holds from -40 to 0 degC."
_WATER = "Water is liquid from 0 degC up to its boiling point."


def ice_heat_capacity_kj_per_kg_k(*, temperature_c: float) -> float:
    """Heat capacity of ice, and so of dry snow [kJ/kg/K].

    Range: -40 to 0 degC, refused outside.

    Source: a straight line, 2.0967 + 0.00733 T, through the IAPWS-06 ice Ih equation (IAPWS
    R10-06, 2009, Revised Release on the Equation of State 2006 for H2O Ice Ih); status:
    computed with the iapws library 1.5.5.

    Departs: from IAPWS-06 by at most 0.0004 kJ/kg/K down to -30 degC and 0.0011 at -40 degC, where
    the line runs low.

    Independent check: IAPWS-06 itself, evaluated by the iapws library.
    """
    require_within("temperature_c", temperature_c, -40.0, 0.0, "degC", _SNOW)
    return 2.0967 + 0.00733 * temperature_c


def warming_snow_kj_per_kg(*, snow_temperature_c: float) -> float:
    """Heat that brings snow to 0 degC without melting it [kJ/kg].

    Range: -40 to 0 degC, refused outside.

    Source: the integral of ``ice_heat_capacity_kj_per_kg_k`` from the snow's temperature to 0 degC;
    status: computed.

    Departs: from IAPWS-06 by less than 0.01 kJ/kg. Snow is taken as dry ice; wet snow needs less.

    Independent check: differences of enthalpy from IAPWS-06, evaluated by the iapws library.
    """
    t = snow_temperature_c
    require_within("snow_temperature_c", t, -40.0, 0.0, "degC", _SNOW)
    return -(2.0967 * t + 0.00733 * t * t / 2)


def warming_water_kj_per_kg(*, from_c: float, to_c: float) -> float:
    """Heat that warms liquid water from one temperature to another [kJ/kg].

    Range: 0 to 100 degC, from_c not above to_c, refused outside.

    Source: a constant heat capacity of 4.19 kJ/kg/K; status: computed, the mean of IAPWS-95 over
    0 to 100 degC.

    Departs: from IAPWS-95, starting at 0 degC, by -0.5 % at 5 degC, -0.4 % at 10 degC and less than
    0.1 % from 30 degC upwards.

    Independent check: IAPWS-95, evaluated by the CoolProp library 8.0.0.
    """
    require_within("from_c", from_c, 0.0, 100.0, "degC", _WATER)
    require_within("to_c", to_c, from_c, 100.0, "degC", "It is warmed, not cooled.")
    return WATER_HEAT_CAPACITY_KJ_PER_KG_K * (to_c - from_c)


def snow_to_water_kj_per_kg(*, snow_temperature_c: float, water_temperature_c: float) -> float:
    """Heat that turns snow into water of a given temperature [kJ/kg].

    Range: snow -40 to 0 degC, water 0 to 100 degC, refused outside.

    Source: warming the ice, melting it (333.4 kJ/kg at 0 degC and 1 atm, IAPWS-06 and IAPWS-95),
    warming the water; status: computed.

    Departs: heat lost by the pot and steam are not in it; they belong to the stove's efficiency and
    to ``vaporising_water_kj_per_kg``.

    Independent check: a table of enthalpy differences from IAPWS-06 and CoolProp at 592.9 hPa.
    """
    return (
        warming_snow_kj_per_kg(snow_temperature_c=snow_temperature_c)
        + FUSION_KJ_PER_KG
        + warming_water_kj_per_kg(from_c=0.0, to_c=water_temperature_c)
    )


def vaporising_water_kj_per_kg(*, temperature_c: float) -> float:
    """Heat that leaves with each kilogram of steam from a pot [kJ/kg].

    Range: 70 to 100 degC, the boiling points of any place where people camp; refused outside.

    Source: a straight line, 2256.4 + 2.5595 (100 - T), through IAPWS-95 at 70 and 100 degC; status:
    computed with the CoolProp library 8.0.0.

    Departs: from IAPWS-95 by at most 0.6 kJ/kg (0.03 %), low in the middle.

    Independent check: IAPWS-95, evaluated by CoolProp between the two ends.
    """
    require_within(
        "temperature_c",
        temperature_c,
        70.0,
        100.0,
        "degC",
        "The line is drawn between two points of the boiling curve.",
    )
    return 2256.4 + 2.5595 * (100.0 - temperature_c)


def snow_volume_l(*, water_l: float, snow_density_kg_per_m3: float) -> float:
    """Loose volume of snow that must be dug and carried to the pot for this much water [L].

    Range: 20 to 917 kg/m³ (fresh powder to solid ice), water 0 or more; refused outside.

    Source: mass is conserved and a litre of water weighs a kilogram. Densities to put in: new snow
    50 to 100, settled 200 to 300, wind-packed 350 to 400, firn 400 to 830 kg/m³, from Cuffey
    and Paterson, The Physics of Glaciers, 4th ed. 2010, Table 2.1; status: memory-unverified.

    Departs: does not.

    Independent check: none was found for the table; the volume is arithmetic.
    """
    require_within(
        "snow_density_kg_per_m3",
        snow_density_kg_per_m3,
        20.0,
        917.0,
        "kg/m³",
        "Snow lies between fresh powder and solid ice.",
    )
    require_within("water_l", water_l, 0.0, float("inf"), "L", "Water is not owed.")
    return water_l * 1000.0 / snow_density_kg_per_m3
