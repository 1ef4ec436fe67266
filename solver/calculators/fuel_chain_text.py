"""The fuel chain in sentences, for a page that shows every step."""

from __future__ import annotations

from solver.calculators.fuel_chain import FuelChain


def fuel_chain_steps(*, chain: FuelChain) -> tuple[str, ...]:
    """One sentence for each step of a fuel chain, with its numbers and units [text].

    Range: any chain that ``fuel_for_water`` returns.

    Source: the numbers of the chain; nothing is worked out here.

    Departs: numbers are rounded for reading; steps that are nothing are left out.

    Independent check: none was found; it prints.
    """
    c = chain
    steps = [
        f"Water boils at {c.boiling_point_c:.1f} degC at {c.pressure_hpa:.0f} hPa of air pressure.",
        (
            f"Warming snow from {c.snow_temperature_c:.0f} to 0 degC takes "
            f"{c.warming_snow_kj_per_kg:.1f} kJ/kg. "
            f"Melting it takes {c.fusion_kj_per_kg:.1f} kJ/kg."
        ),
        (
            f"Warming the water to drink it takes {c.warming_to_drink_kj_per_kg:.1f} kJ/kg, so a "
            f"litre to drink takes {c.melt_kj_per_l:.1f} kJ."
        ),
        (
            f"Warming the water until it boils takes {c.warming_to_boil_kj_per_kg:.1f} kJ/kg, so a "
            f"litre brought to the boil takes {c.boil_kj_per_l:.1f} kJ."
        ),
        (
            f"{c.melted_l:.2f} L melted take {c.melting_kj:.0f} kJ, and {c.boiled_l:.2f} L boiled "
            f"take {c.boiling_kj:.0f} kJ."
        ),
    ]
    if c.steam_kj:
        steps.append(f"Steam that escapes takes {c.steam_kj:.0f} kJ.")
    if c.simmering_kj:
        steps.append(f"Simmering takes {c.simmering_kj:.0f} kJ. It lasts longer at this elevation.")
    steps.append(
        f"{c.useful_kj:.0f} kJ in the pot, at an efficiency of {c.efficiency:.2f} and "
        f"{c.lower_heating_value_mj_per_kg:.1f} MJ/kg, burn {c.burnt_g:.1f} g of fuel."
    )
    if c.priming_g:
        steps.append(f"Priming the stove takes another {c.priming_g:.1f} g.")
    steps.append(
        f"{c.fuel_g:.1f} g at {c.density_kg_per_l:.3f} kg/L are {c.fuel_ml:.1f} mL "
        f"({c.fuel_us_fl_oz:.1f} US fl oz)."
    )
    steps.append(
        f"A margin of {100 * c.margin_fraction:.0f} % adds {c.margin_ml:.1f} mL: "
        f"{c.fuel_with_margin_ml:.1f} mL."
    )
    return tuple(steps)
