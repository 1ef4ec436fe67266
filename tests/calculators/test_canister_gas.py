"""Blends of canister gas against worked tables and a mixture model."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.canister_gas import (
    GASES,
    GasBlend,
    bubble_pressure_hpa,
    depleted_blend,
    depleted_pressure_hpa,
    feed_stop_temperature_c,
    fraction_left_when_feed_stops,
)
from solver.calculators.saturation_pressure import molar_mass_g_per_mol, saturation_pressure_hpa
from tests.calculators.published_values import misses, rows

BUTANE_BLEND = GasBlend(propane_mass_fraction=0.25, n_butane_mass_fraction=0.75)


def of_blend(function: Any) -> Any:
    """The function with its blend given as a list of propane, isobutane and n-butane."""
    return lambda blend, **given: function(blend=GasBlend(*blend), **given)


@pytest.mark.parametrize("row", rows("bubble_pressure_hpa"), ids=str)
def test_bubble_pressure_meets_the_worked_table(row: dict[str, str]) -> None:
    """Four blends have the pressures of Raoult's law as worked on the library's gases."""
    assert not misses(of_blend(bubble_pressure_hpa), row)


@pytest.mark.parametrize(
    ("blend", "temperature_c", "mixture_hpa"),
    [
        (GasBlend(0.2, 0.8, 0.0), -30, 759),
        (GasBlend(0.2, 0.8, 0.0), -10, 1646),
        (GasBlend(0.2, 0.8, 0.0), 0, 2315),
        (GasBlend(0.3, 0.7, 0.0), -20, 1322),
        (GasBlend(0.25, 0.0, 0.75), 0, 2107),
        (GasBlend(0.3, 0.0, 0.7), -30, 774),
        (GasBlend(0.3, 0.0, 0.7), 0, 2310),
    ],
)
def test_raoult_is_at_most_three_percent_high(blend, temperature_c, mixture_hpa) -> None:
    """Raoult's law lies 0 to 3 % above CoolProp's HEOS mixture model (independent)."""
    raoult = bubble_pressure_hpa(blend=blend, temperature_c=temperature_c)
    assert 1.0 <= raoult / mixture_hpa <= 1.03


def test_raoult_agrees_with_the_mixture_library() -> None:
    """At -15 degC CoolProp's HEOS mixture lies 0 to 3 % below Raoult's law (independent)."""
    coolprop = pytest.importorskip(
        "CoolProp.CoolProp", reason="the CoolProp library is a test dependency and is not installed"
    )
    state = coolprop.AbstractState("HEOS", "IsoButane&Propane")
    state.set_mass_fractions([0.75, 0.25])
    state.update(coolprop.QT_INPUTS, 0, 258.15)
    raoult = bubble_pressure_hpa(blend=GasBlend(0.25, 0.75, 0.0), temperature_c=-15)
    assert 1.0 <= raoult / (state.p() / 100) <= 1.03


@pytest.mark.parametrize("row", rows("depleted_pressure_hpa"), ids=str)
def test_depletion_meets_the_stepped_table(row: dict[str, str]) -> None:
    """Vapour feed lowers the pressure as the table worked in steps says."""
    assert not misses(of_blend(depleted_pressure_hpa), row)


@pytest.mark.parametrize("row", rows("depleted_blend"), ids=str)
def test_depletion_keeps_pure_and_full_canisters(row: dict[str, str]) -> None:
    """A pure gas and a full canister have the composition that they began with."""
    assert not misses(lambda **given: of_blend(depleted_blend)(**given).propane_mass_fraction, row)


def test_depletion_is_the_limit_of_small_steps() -> None:
    """A thousand small draws of vapour end within 0.1 % of the closed form (independent)."""
    pressures = [saturation_pressure_hpa(gas=gas, temperature_c=-20) for gas in GASES]
    molar = [molar_mass_g_per_mol(gas=gas) for gas in GASES]
    moles = list(BUTANE_BLEND.moles_per_kg())
    steps = 1000
    for _ in range(steps):
        vapour = [n * p for n, p in zip(moles, pressures, strict=True)]
        grams = sum(v * m for v, m in zip(vapour, molar, strict=True))
        drawn = 500.0 / steps / grams
        moles = [n - drawn * v for n, v in zip(moles, vapour, strict=True)]
    stepped = sum(n * p for n, p in zip(moles, pressures, strict=True)) / sum(moles)
    closed = depleted_pressure_hpa(
        blend=BUTANE_BLEND, mass_left_fraction=0.5, canister_temperature_c=-20
    )
    assert closed == pytest.approx(stepped, rel=0.001)


@pytest.mark.parametrize("row", rows("feed_stop_temperature_c"), ids=str)
def test_feed_stops_at_the_worked_temperatures(row: dict[str, str]) -> None:
    """Full canisters stop, and work badly, at the temperatures worked for five heights."""
    assert not misses(of_blend(feed_stop_temperature_c), row)


def test_isobutane_meets_common_practice() -> None:
    """At sea level isobutane burns poorly below about 25 degF, -3.9 degC (2 K, practice)."""
    works = feed_stop_temperature_c(
        blend=GasBlend(isobutane_mass_fraction=1.0), pressure_hpa=1013.25, margin_hpa=300
    )
    assert works == pytest.approx((25 - 32) / 1.8, abs=2.0)


@pytest.mark.parametrize("row", rows("fraction_left_when_feed_stops"), ids=str)
def test_half_a_butane_blend_stays_inside(row: dict[str, str]) -> None:
    """At -20 degC and 593 hPa a butane blend keeps half its gas, an isobutane blend none."""
    assert not misses(of_blend(fraction_left_when_feed_stops), row)


@given(
    propane=st.floats(0.05, 0.6),
    canister_c=st.floats(-40, 10),
    left=st.floats(0.02, 0.98),
    hpa=st.floats(400, 1000),
)
def test_pressure_falls_as_gas_is_used(propane, canister_c, left, hpa) -> None:
    """Less gas, less propane or a colder canister never feeds better."""
    blend = GasBlend(propane, 0.0, 1 - propane)
    richer = GasBlend(propane + 0.02, 0.0, 0.98 - propane)

    def inside(blend: GasBlend, left: float, canister_c: float) -> float:
        return depleted_pressure_hpa(
            blend=blend, mass_left_fraction=left, canister_temperature_c=canister_c
        )

    here = inside(blend, left, canister_c)
    assert inside(blend, left + 0.02, canister_c) >= here
    assert inside(richer, left, canister_c) >= here
    assert inside(blend, left, canister_c + 1) > here
    stays = fraction_left_when_feed_stops(
        blend=blend, pressure_hpa=hpa, canister_temperature_c=canister_c
    )
    warmer = fraction_left_when_feed_stops(
        blend=blend, pressure_hpa=hpa, canister_temperature_c=canister_c + 1
    )
    assert warmer <= stays + 1e-9


@pytest.mark.parametrize(
    "shares", [(0.2, 0.7, 0.0), (-0.1, 1.1, 0.0), (20, 80, 0), (float("nan"), 0.5, 0.5)]
)
def test_shares_that_do_not_add_up_are_refused(shares) -> None:
    """Fractions that miss 1, negative ones and percentages are refused."""
    with pytest.raises(ValueError, match="add up to 1"):
        GasBlend(*shares)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (bubble_pressure_hpa, {"temperature_c": 61}, "temperature_c"),
        (
            depleted_blend,
            {"mass_left_fraction": 0, "canister_temperature_c": 0},
            "mass_left_fraction",
        ),
        (
            depleted_pressure_hpa,
            {"mass_left_fraction": 1.1, "canister_temperature_c": 0},
            "mass_left_fraction",
        ),
        (feed_stop_temperature_c, {"pressure_hpa": 59_300}, "pressure_hpa"),
        (feed_stop_temperature_c, {"pressure_hpa": 593, "margin_hpa": -1}, "margin_hpa"),
        (
            feed_stop_temperature_c,
            {"pressure_hpa": 593, "mass_left_fraction": 50},
            "mass_left_fraction",
        ),
        (
            fraction_left_when_feed_stops,
            {"pressure_hpa": 299, "canister_temperature_c": 0},
            "pressure_hpa",
        ),
        (
            fraction_left_when_feed_stops,
            {"pressure_hpa": 593, "canister_temperature_c": -61},
            "temperature_c",
        ),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Empty canisters, pascals and temperatures beyond the equations are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(blend=BUTANE_BLEND, **arguments)
