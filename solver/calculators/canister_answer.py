"""What to say about a gas canister at a cold camp, in words."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators.canister_gas import (
    WORKING_MARGIN_HPA,
    GasBlend,
    feed_stop_temperature_c,
    fraction_left_when_feed_stops,
)

_REMEDY = "Warm the canister in a bowl of water, or take liquid fuel."


def self_cooling_k_per_min(
    *,
    burn_g_per_h: float,
    gas_g: float,
    canister_g: float,
    latent_kj_per_kg: float = 354.0,
) -> float:
    """Speed at which a canister cools itself while it feeds vapour, with no heat coming in [K/min].

    Range: burning 0 to 500 g/h, gas 10 to 5000 g, canister 20 to 2000 g, latent heat 300 to
    450 kJ/kg; refused outside.

    Source: burning rate times latent heat over the heat capacity of gas (2.28 kJ/kg/K) and steel
    (0.46 kJ/kg/K); the latent heat and the gas's heat capacity are isobutane's at 0 degC, computed
    with CoolProp 8.0.0; steel memory-unverified.

    Departs: real canisters take heat from the air and the flame; this is the worst case.

    Independent check: none was found; 150 g/h from a full 250 g canister is 14.8 W, 1.4 K/min.
    """
    require_within("burn_g_per_h", burn_g_per_h, 0.0, 500.0, "g/h")
    require_within("gas_g", gas_g, 10.0, 5000.0, "g")
    require_within("canister_g", canister_g, 20.0, 2000.0, "g")
    require_within("latent_kj_per_kg", latent_kj_per_kg, 300.0, 450.0, "kJ/kg")
    kj_per_min = burn_g_per_h / 60.0 * latent_kj_per_kg / 1000.0
    kj_per_k = (gas_g * 2.28 + canister_g * 0.46) / 1000.0
    return kj_per_min / kj_per_k


@dataclass(frozen=True, slots=True)
class CanisterAnswer:
    """When a blend feeds at a camp, and the sentence to show."""

    full_stop_temperature_c: float
    half_stop_temperature_c: float
    works_well_above_c: float
    fraction_left: float
    sentence: str


def canister_answer(
    *, blend: GasBlend, pressure_hpa: float, canister_temperature_c: float
) -> CanisterAnswer:
    """Whether a blend feeds at a camp, how much stays inside, and what to do [degC, -, text].

    Range: pressure 300 to 1100 hPa, canister -60 to 60 degC; refused outside.

    Source: ``feed_stop_temperature_c`` when full, with half its gas left, and with half left and a
    working margin of 300 hPa; ``fraction_left_when_feed_stops``; status: computed.

    Departs: the temperature is the canister's, which its own feeding cools below the air's
    (``self_cooling_k_per_min``); a bowl of water holds it near 0 degC or above. Degrees are rounded
    up to whole ones, because the model is about 1 K too bold.

    Independent check: as the functions that it calls.
    """
    full = feed_stop_temperature_c(blend=blend, pressure_hpa=pressure_hpa)
    half = feed_stop_temperature_c(blend=blend, pressure_hpa=pressure_hpa, mass_left_fraction=0.5)
    well = feed_stop_temperature_c(
        blend=blend,
        pressure_hpa=pressure_hpa,
        mass_left_fraction=0.5,
        margin_hpa=WORKING_MARGIN_HPA,
    )
    left = fraction_left_when_feed_stops(
        blend=blend, pressure_hpa=pressure_hpa, canister_temperature_c=canister_temperature_c
    )
    return CanisterAnswer(
        full_stop_temperature_c=full,
        half_stop_temperature_c=half,
        works_well_above_c=well,
        fraction_left=left,
        sentence=_sentence(half, well, left, canister_temperature_c),
    )


def _sentence(half: float, well: float, left: float, canister_c: float) -> str:
    """The answer for a canister of this temperature; degrees rounded up by at most one."""
    stop, good = round(half + 0.5), round(well + 0.5)
    half_left = f"This blend stops feeding at {stop} degC at this camp with half its gas left"
    if left >= 1.0:
        return f"{half_left}, and at {canister_c:.0f} degC even a full canister is dead. {_REMEDY}"
    if left >= 0.02:
        share = f"{100 * left:.0f} % of its gas stays inside"
        return f"{half_left}; in a canister at {canister_c:.0f} degC {share}. {_REMEDY}"
    if canister_c < good:
        return (
            f"At this camp this blend feeds at {canister_c:.0f} degC to the last, but weakly: it "
            f"burns well above {good} degC. Stand the canister in a bowl of water."
        )
    return f"At this camp this blend feeds at {canister_c:.0f} degC to the last and burns well."
