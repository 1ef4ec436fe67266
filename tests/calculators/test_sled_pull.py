"""Sled pull against mechanics worked by hand and against limits that need no formula."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.sled_pull import (
    planning_friction_coefficient,
    sled_pull_kcal_per_km,
    sled_pull_newtons,
    sled_push_angle_degrees,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [
    planning_friction_coefficient,
    sled_pull_kcal_per_km,
    sled_pull_newtons,
    sled_push_angle_degrees,
]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
SLED = {"sled_mass_kg": 40, "friction_coefficient": 0.1, "slope": 0.08}
sleds = st.fixed_dictionaries(
    {
        "sled_mass_kg": st.floats(1, 150),
        "friction_coefficient": st.floats(0, 0.5),
        "slope": st.floats(0, 0.5),
    }
)


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_figures(function, row) -> None:
    """Each function gives the figures worked by hand within their tolerance."""
    assert not misses(function, row)


@given(sled=sleds)
@pytest.mark.parametrize(
    ("argument", "step"), [("sled_mass_kg", 1), ("friction_coefficient", 0.01), ("slope", 0.01)]
)
def test_more_of_anything_pulls_harder(argument: str, step: float, sled) -> None:
    """A heavier sled, more friction or a steeper ascent always pulls harder and costs more."""
    worse = sled | {argument: sled[argument] + step}
    assert sled_pull_newtons(**worse) >= sled_pull_newtons(**sled)
    assert sled_pull_kcal_per_km(**worse, muscular_efficiency=0.25) >= sled_pull_kcal_per_km(
        **sled, muscular_efficiency=0.25
    )


def test_flat_pull_is_weight_times_friction() -> None:
    """On the flat 100 kg with friction 0.1 pull as hard as 10 kg weigh."""
    pull = sled_pull_newtons(sled_mass_kg=100, friction_coefficient=0.1, slope=0)
    assert pull == pytest.approx(10 * 9.80665)


@given(friction=st.floats(0, 0.6))
def test_pull_vanishes_at_the_push_angle(friction: float) -> None:
    """On a descent as steep as the friction coefficient the sled neither pulls nor pushes."""
    pull = sled_pull_newtons(sled_mass_kg=50, friction_coefficient=friction, slope=-friction)
    assert pull == pytest.approx(0, abs=1e-9)


def test_a_steep_descent_pushes_and_costs_nothing_here() -> None:
    """Below the push angle the pull is negative and its energy is clamped to zero."""
    steep = SLED | {"slope": -0.3}
    assert sled_pull_newtons(**steep) < 0
    assert sled_pull_kcal_per_km(**steep, muscular_efficiency=0.25) == 0


def test_hauling_stays_below_the_measured_rate() -> None:
    """The sled's share on the flat at 4 km/h is less than all of man-hauling's measured 446 kcal/h.

    Measured: Halsey et al. (2015), doi 10.1007/s00300-015-1818-5, read.
    """
    per_km = sled_pull_kcal_per_km(
        sled_mass_kg=80, friction_coefficient=0.1, slope=0, muscular_efficiency=0.25
    )
    assert 0 < 4 * per_km < 446


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"sled_mass_kg": -1}, "sled_mass_kg"),
        ({"sled_mass_kg": 201}, "sled_mass_kg"),
        ({"friction_coefficient": 0.61}, "friction_coefficient"),
        ({"slope": 8}, "Write 8 % as 0.08"),
        ({"slope": -0.61}, "slope"),
    ],
)
def test_pull_refuses_what_is_out_of_range(change, told) -> None:
    """The pull refuses masses, frictions and slopes outside its range."""
    with pytest.raises(ValueError, match=told):
        sled_pull_newtons(**SLED | change)


@pytest.mark.parametrize("efficiency", [0.14, 0.31, 25])
def test_energy_refuses_impossible_efficiencies(efficiency: float) -> None:
    """A muscular efficiency outside 0.15-0.30 is refused, a percentage too."""
    with pytest.raises(ValueError, match="muscular_efficiency"):
        sled_pull_kcal_per_km(**SLED, muscular_efficiency=efficiency)


def test_push_angle_refuses_negative_friction() -> None:
    """A friction below zero is refused."""
    with pytest.raises(ValueError, match="friction_coefficient"):
        sled_push_angle_degrees(friction_coefficient=-0.01)


def test_planning_friction_refuses_unknown_snow() -> None:
    """An unknown state of the snow is refused with the known ones."""
    with pytest.raises(ValueError, match="allowed is one of: cold, firm_near_melting"):
        planning_friction_coefficient(snow_state="slush", bound="low")
