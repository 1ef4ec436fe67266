"""Properties of stove fuels.

All heating values are the lower ones: the water in the flue gas leaves a pot as steam and is not
condensed. Mixing a higher value with an efficiency on the lower basis is a fault of 7 to 8 %.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice
from solver.calculators.canister_gas import GASES, GasBlend

FuelName = Literal[
    "white_gas", "gasoline", "kerosene", "propane", "n_butane", "isobutane", "ethanol"
]


@dataclass(frozen=True, slots=True)
class Fuel:
    """A fuel: lower and higher heating value [MJ/kg], density as a liquid [kg/L], source."""

    name: str
    lower_heating_value_mj_per_kg: float
    higher_heating_value_mj_per_kg: float
    density_kg_per_l: float
    source: str
    status: str


_DOE = "US DOE Hydrogen Analysis Resource Center, lower and higher heating values of fuels"
_COMPUTED = "chemicals 1.5.2 (heats of formation), CoolProp 8.0.0 (density, saturated, 15 degC)"

_FUELS = {
    "white_gas": Fuel("white gas", 44.9, 48.063, 0.725, f"{_DOE}, petroleum naphtha", "quoted"),
    "gasoline": Fuel("motor gasoline", 43.4, 46.5, 0.745, _DOE, "quoted"),
    "kerosene": Fuel(
        "kerosene", 43.8, 46.2, 0.80, "IPCC 2006 Guidelines, vol. 2, other kerosene", "quoted"
    ),
    "propane": Fuel("propane", 46.34, 50.33, 0.508, _COMPUTED, "computed"),
    "n_butane": Fuel("n-butane", 45.72, 49.50, 0.584, _COMPUTED, "computed"),
    "isobutane": Fuel("isobutane", 45.55, 49.34, 0.563, _COMPUTED, "computed"),
    "ethanol": Fuel("ethanol", 26.8, 29.7, 0.79, _COMPUTED, "computed"),
}


def fuel_named(*, name: FuelName) -> Fuel:
    """A fuel of the table, with heating values [MJ/kg] and density [kg/L].

    Range: the seven names of the table, others refused.

    Source: beside each fuel in the table, with its status: white gas (taken as petroleum naphtha)
    and gasoline from the US DOE table, quoted; kerosene from IPCC 2006, quoted, its density the
    middle of the aviation grade, 0.775 to 0.840, memory-unverified; the gases and ethanol computed.

    Departs: does not. The gases have the value of the vapour, because the heat that makes the
    vapour comes from the surroundings of the canister; burnt as liquid they give 0.7 % less.

    Independent check: pure hydrocarbons of the same kind from the chemicals library 1.5.2:
    n-hexane, n-heptane and n-octane 44.4 to 44.7 for white gas, n-dodecane 44.12 for kerosene
    [MJ/kg].
    """
    return require_choice("name", name, _FUELS)


def gas_blend_fuel(*, blend: GasBlend) -> Fuel:
    """A canister's blend of gases as a fuel, with heating values [MJ/kg] and density [kg/L].

    Range: any ``GasBlend``.

    Source: heating values by mass from ``fuel_named``; status: computed.

    Departs: volumes are taken as additive for the density.

    Independent check: none was found; it lies between the pure gases.
    """
    pairs = [(share, _FUELS[gas]) for gas, share in zip(GASES, blend.mass_fractions(), strict=True)]
    return Fuel(
        name="canister gas",
        lower_heating_value_mj_per_kg=sum(s * f.lower_heating_value_mj_per_kg for s, f in pairs),
        higher_heating_value_mj_per_kg=sum(s * f.higher_heating_value_mj_per_kg for s, f in pairs),
        density_kg_per_l=1.0 / sum(share / fuel.density_kg_per_l for share, fuel in pairs),
        source=_COMPUTED,
        status="computed",
    )
