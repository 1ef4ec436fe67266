"""Vapour pressure of the gases in stove canisters."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Gas = Literal["propane", "isobutane", "n_butane"]

COLDEST_C = -60.0
WARMEST_C = 60.0


@dataclass(frozen=True, slots=True)
class _Fluid:
    """Critical point [K, hPa], molar mass [g/mol], coefficients and exponents of the equation."""

    critical_k: float
    critical_hpa: float
    molar_g: float
    terms: tuple[tuple[float, float], ...]


_FLUIDS = {
    "propane": _Fluid(
        369.89,
        42_512.0,
        44.09562,
        ((-6.7722, 1.0), (1.6938, 1.5), (-1.3341, 2.2), (-3.1876, 4.8), (0.94937, 6.2)),
    ),
    "isobutane": _Fluid(
        407.81,
        36_290.0,
        58.1222,
        ((-6.85093103, 1.0), (1.36543198, 1.5), (-1.32542691, 2.5), (-2.56190994, 4.5)),
    ),
    "n_butane": _Fluid(
        425.125,
        37_960.0,
        58.1222,
        ((-7.17616903, 1.0), (2.53635336, 1.5), (-2.07532869, 2.0), (-2.82241113, 4.5)),
    ),
}


def molar_mass_g_per_mol(*, gas: Gas) -> float:
    """Molar mass of a canister gas [g/mol].

    Range: propane, isobutane, n_butane; others refused.

    Source: as in the equations of state named in ``saturation_pressure_hpa``; status: computed with
    the CoolProp library 8.0.0.

    Departs: does not.

    Independent check: CoolProp.
    """
    return require_choice("gas", gas, _FLUIDS).molar_g


def saturation_pressure_hpa(*, gas: Gas, temperature_c: float) -> float:
    """Pressure of a pure canister gas over its liquid [hPa].

    Range: -60 to 60 degC, refused outside.

    Source: the vapour-pressure equations ln(p/pc) = Tc/T sum n (1 - T/Tc)^k of the reference
    equations of state: Lemmon, McLinden and Wagner, Thermodynamic properties of propane III, J Chem
    Eng Data 54:3141-3180, 2009, doi 10.1021/je900217v; Buecker and Wagner, Reference equations of
    state for n-butane and isobutane, J Phys Chem Ref Data 35:929-1019, 2006, doi 10.1063/1.1901687;
    status: memory-unverified for the coefficients, which the check below confirms.

    Departs: does not.

    Independent check: the full equations of state, evaluated by CoolProp 8.0.0: within 0.03 % from
    -40 to 50 degC.
    """
    fluid = require_choice("gas", gas, _FLUIDS)
    require_within("temperature_c", temperature_c, COLDEST_C, WARMEST_C, "degC")
    kelvin = temperature_c + 273.15
    theta = 1.0 - kelvin / fluid.critical_k
    series = sum(n * math.pow(theta, k) for n, k in fluid.terms)
    return fluid.critical_hpa * math.exp(fluid.critical_k / kelvin * series)


def saturation_temperature_c(*, gas: Gas, pressure_hpa: float) -> float:
    """Temperature at which a pure canister gas has this pressure over its liquid [degC].

    Range: pressures that the gas has between -60 and 60 degC, refused outside.

    Source: ``saturation_pressure_hpa``, turned round by halving the interval; status: computed.

    Departs: does not.

    Independent check: normal boiling points -42.11, -11.75, -0.49 degC (CoolProp 8.0.0).
    """
    low, high = COLDEST_C, WARMEST_C
    require_within(
        "pressure_hpa",
        pressure_hpa,
        saturation_pressure_hpa(gas=gas, temperature_c=low),
        saturation_pressure_hpa(gas=gas, temperature_c=high),
        "hPa",
    )
    for _ in range(60):
        middle = (low + high) / 2
        if saturation_pressure_hpa(gas=gas, temperature_c=middle) < pressure_hpa:
            low = middle
        else:
            high = middle
    return (low + high) / 2
