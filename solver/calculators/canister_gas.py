"""When a canister of mixed gas stops feeding its stove, and how much stays inside.

Upright canisters feed vapour. The vapour is richer in the lighter gas than the liquid, so the
liquid that stays grows heavier and its pressure falls: a blend that looks fine when full can be
dead with half its gas left. What counts is the canister's own temperature and the composition at
the end, not the air's temperature and the label. A canister that is turned over for a stove that
takes liquid keeps its composition: for that one, ask with all of the gas left.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators.saturation_pressure import (
    COLDEST_C,
    WARMEST_C,
    Gas,
    molar_mass_g_per_mol,
    saturation_pressure_hpa,
)

GASES: tuple[Gas, Gas, Gas] = ("propane", "isobutane", "n_butane")
WORKING_MARGIN_HPA = 300.0
LEAST_LEFT = 0.001


@dataclass(frozen=True, slots=True)
class GasBlend:
    """A canister's gases by mass, as labels give them; the three fractions add up to 1."""

    propane_mass_fraction: float = 0.0
    isobutane_mass_fraction: float = 0.0
    n_butane_mass_fraction: float = 0.0

    def __post_init__(self) -> None:
        """Refuse fractions below nothing or that do not add up."""
        shares = self.mass_fractions()
        if not (all(share >= 0 for share in shares) and abs(sum(shares) - 1) <= 1e-3):
            raise ValueError(
                f"the mass fractions {shares} of propane, isobutane and n-butane must not be "
                "negative and must add up to 1."
            )

    def mass_fractions(self) -> tuple[float, float, float]:
        """Mass fractions of propane, isobutane and n-butane [-]."""
        return (
            self.propane_mass_fraction,
            self.isobutane_mass_fraction,
            self.n_butane_mass_fraction,
        )

    def moles_per_kg(self) -> tuple[float, ...]:
        """Moles of propane, isobutane and n-butane in a kilogram of the blend [mol/kg]."""
        return tuple(
            1000.0 * share / molar_mass_g_per_mol(gas=gas)
            for gas, share in zip(GASES, self.mass_fractions(), strict=True)
        )


def bubble_pressure_hpa(*, blend: GasBlend, temperature_c: float) -> float:
    """Pressure in a canister over its liquid blend [hPa].

    Range: -60 to 60 degC, refused outside.

    Source: Raoult's law, mole fractions times the pure gases' pressures; status: computed.

    Departs: from real mixtures by up to 3 % too high between -30 and 0 degC, which errs on the bold
    side by about 1 K; the answers give whole degrees.

    Independent check: the HEOS mixture model of CoolProp 8.0.0, within 3 %.
    """
    pressures = _pressures(temperature_c)
    moles = blend.moles_per_kg()
    return sum(n * p for n, p in zip(moles, pressures, strict=True)) / sum(moles)


def depleted_blend(
    *, blend: GasBlend, mass_left_fraction: float, canister_temperature_c: float
) -> GasBlend:
    """Blend that stays in a canister after vapour was drawn at a steady temperature [-].

    Range: 0.001 to 1 of the gas left, canister -60 to 60 degC; refused outside.

    Source: Rayleigh's law of distillation with Raoult's law: each gas leaves in proportion to its
    share of the pressure, so its moles fall as exp(-p t) with one common t, found by Newton's
    steps; status: computed.

    Departs: the liquid is taken as well mixed, and the vapour above it as weightless.

    Independent check: none was found; conservation of each gas is tested by small steps.
    """
    require_within("mass_left_fraction", mass_left_fraction, LEAST_LEFT, 1.0, "of the gas")
    pressures = _pressures(canister_temperature_c)
    shares = blend.mass_fractions()

    def left(time: float) -> list[float]:
        return [m * math.exp(-p * time) for m, p in zip(shares, pressures, strict=True)]

    # What is left falls ever more slowly, so that Newton's steps from the start never overshoot.
    wanted = mass_left_fraction * sum(shares)
    time = 0.0
    masses = left(time)
    for _ in range(80):
        slope = sum(m * p for m, p in zip(masses, pressures, strict=True))
        step = (sum(masses) - wanted) / slope
        time += step
        masses = left(time)
        if step <= 1e-13 * time:
            break
    propane, isobutane, n_butane = (mass / sum(masses) for mass in masses)
    return GasBlend(propane, isobutane, n_butane)


def depleted_pressure_hpa(
    *, blend: GasBlend, mass_left_fraction: float, canister_temperature_c: float
) -> float:
    """Pressure in a canister when only this share of its gas is left [hPa].

    Range: 0.001 to 1 of the gas left, canister -60 to 60 degC; refused outside.

    Source: ``bubble_pressure_hpa`` of ``depleted_blend``; status: computed.

    Departs: as those two.

    Independent check: none was found.
    """
    rest = depleted_blend(
        blend=blend,
        mass_left_fraction=mass_left_fraction,
        canister_temperature_c=canister_temperature_c,
    )
    return bubble_pressure_hpa(blend=rest, temperature_c=canister_temperature_c)


def feed_stop_temperature_c(
    *,
    blend: GasBlend,
    pressure_hpa: float,
    mass_left_fraction: float = 1.0,
    margin_hpa: float = 0.0,
) -> float:
    """Canister temperature below which the blend no longer feeds at a camp's pressure [degC].

    Range: pressure 300 to 1100 hPa, 0.001 to 1 of the gas left, margin 0 to 1000 hPa; refused
    outside.

    Source: the temperature at which the pressure inside is the air's plus the margin, found by
    halving the interval; status: computed. A margin of 300 hPa for a stove that still burns well:
    common practice, no source.

    Departs: as ``bubble_pressure_hpa``, about 1 K too low. The gas drawn so far is taken to have
    left at that same temperature.

    Independent check: common practice has isobutane burn poorly below about 25 degF (-4 degC); with
    the working margin it is -4.9 degC at sea level. Higher up the limit falls: -15 degC at 4300 m.
    """
    require_within("pressure_hpa", pressure_hpa, 300.0, 1100.0, "hPa")
    require_within("margin_hpa", margin_hpa, 0.0, 1000.0, "hPa")
    require_within("mass_left_fraction", mass_left_fraction, LEAST_LEFT, 1.0, "of the gas")
    low, high = COLDEST_C, WARMEST_C
    for _ in range(32):
        middle = (low + high) / 2
        inside = depleted_pressure_hpa(
            blend=blend, mass_left_fraction=mass_left_fraction, canister_temperature_c=middle
        )
        if inside < pressure_hpa + margin_hpa:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def fraction_left_when_feed_stops(
    *,
    blend: GasBlend,
    pressure_hpa: float,
    canister_temperature_c: float,
    margin_hpa: float = 0.0,
) -> float:
    """Share of the gas that a canister of steady temperature keeps when it stops feeding [-].

    Range: pressure 300 to 1100 hPa, canister -60 to 60 degC, margin 0 to 1000 hPa; refused outside.
    1 where it does not feed even when full, 0 where it feeds to the last thousandth.

    Source: ``depleted_pressure_hpa`` against the air's pressure; status: computed.

    Departs: as ``bubble_pressure_hpa``.

    Independent check: none was found.
    """
    require_within("pressure_hpa", pressure_hpa, 300.0, 1100.0, "hPa")
    require_within("margin_hpa", margin_hpa, 0.0, 1000.0, "hPa")
    wanted = pressure_hpa + margin_hpa

    def feeds(left: float) -> bool:
        inside = depleted_pressure_hpa(
            blend=blend, mass_left_fraction=left, canister_temperature_c=canister_temperature_c
        )
        return inside >= wanted

    if not feeds(1.0):
        return 1.0
    if feeds(LEAST_LEFT):
        return 0.0
    low, high = LEAST_LEFT, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        if feeds(middle):
            high = middle
        else:
            low = middle
    return high


def _pressures(temperature_c: float) -> list[float]:
    return [saturation_pressure_hpa(gas=gas, temperature_c=temperature_c) for gas in GASES]
