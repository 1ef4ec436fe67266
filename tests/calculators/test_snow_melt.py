"""Heat for snow and water against IAPWS equations and the worked table."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.snow_melt import (
    ice_heat_capacity_kj_per_kg_k,
    snow_to_water_kj_per_kg,
    snow_volume_l,
    vaporising_water_kj_per_kg,
    warming_snow_kj_per_kg,
    warming_water_kj_per_kg,
)
from tests.calculators.published_values import misses, rows

ICE_REASON = "the iapws library is a test dependency and is not installed"
WATER_REASON = "the CoolProp library is a test dependency and is not installed"


@pytest.mark.parametrize("row", rows("ice_heat_capacity_kj_per_kg_k"), ids=str)
def test_ice_heat_capacity_follows_iapws_06(row: dict[str, str]) -> None:
    """The straight line lies within its stated error of the ice equation (independent)."""
    assert not misses(ice_heat_capacity_kj_per_kg_k, row)


@pytest.mark.parametrize("row", rows("warming_snow_kj_per_kg"), ids=str)
def test_warming_snow_follows_iapws_06(row: dict[str, str]) -> None:
    """The heat to 0 degC is the difference of enthalpy of the ice equation (independent)."""
    assert not misses(warming_snow_kj_per_kg, row)


@pytest.mark.parametrize("row", rows("warming_water_kj_per_kg"), ids=str)
def test_warming_water_follows_iapws_95(row: dict[str, str]) -> None:
    """A constant heat capacity gives the heat of real water within 0.2 kJ/kg (independent)."""
    assert not misses(warming_water_kj_per_kg, row)


@pytest.mark.parametrize("row", rows("snow_to_water_kj_per_kg"), ids=str)
def test_snow_to_water_meets_the_table(row: dict[str, str]) -> None:
    """Melting and heating take what two reference equations give together (independent)."""
    assert not misses(snow_to_water_kj_per_kg, row)


@pytest.mark.parametrize("row", rows("vaporising_water_kj_per_kg"), ids=str)
def test_vaporising_water_follows_iapws_95(row: dict[str, str]) -> None:
    """Steam carries the latent heat of IAPWS-95 between the ends of the line (independent)."""
    assert not misses(vaporising_water_kj_per_kg, row)


@pytest.mark.parametrize("row", rows("snow_volume_l"), ids=str)
def test_snow_volume_is_mass_over_density(row: dict[str, str]) -> None:
    """A litre of water needs as much snow as the ratio of the densities."""
    assert not misses(snow_volume_l, row)


@pytest.mark.parametrize("temperature_c", [-37.0, -22.0, -8.0, -1.0])
def test_snow_agrees_with_the_ice_library(temperature_c: float) -> None:
    """At temperatures outside the file, warming snow agrees with IAPWS-06 within 0.01 kJ/kg."""
    iapws = pytest.importorskip("iapws._iapws", reason=ICE_REASON)
    zero = iapws._Ice(273.15, 0.101325)["h"]
    cold = iapws._Ice(273.15 + temperature_c, 0.101325)["h"]
    assert warming_snow_kj_per_kg(snow_temperature_c=temperature_c) == pytest.approx(
        zero - cold, abs=0.01
    )


def test_fusion_agrees_with_both_libraries() -> None:
    """Between IAPWS-06 ice and IAPWS-95 water at 0 degC lie the 333.4 kJ/kg of melting."""
    iapws = pytest.importorskip("iapws._iapws", reason=ICE_REASON)
    coolprop = pytest.importorskip("CoolProp.CoolProp", reason=WATER_REASON)
    ice = iapws._Ice(273.15, 0.101325)["h"]
    # CoolProp refuses water at 0 degC exactly, so it is asked at the triple point.
    water = coolprop.PropsSI("H", "T", 273.16, "P", 101325.0, "Water") / 1000.0 - 4.22 * 0.01
    modelled = snow_to_water_kj_per_kg(snow_temperature_c=0.0, water_temperature_c=0.0)
    assert modelled == pytest.approx(water - ice, abs=0.1)


@given(colder=st.floats(-40, -0.5), water=st.floats(0, 99))
def test_colder_snow_and_warmer_water_need_more(colder: float, water: float) -> None:
    """Half a degree colder snow, or one degree warmer water, never needs less heat."""
    base = snow_to_water_kj_per_kg(snow_temperature_c=colder + 0.5, water_temperature_c=water)
    cold = snow_to_water_kj_per_kg(snow_temperature_c=colder, water_temperature_c=water)
    warm = snow_to_water_kj_per_kg(snow_temperature_c=colder + 0.5, water_temperature_c=water + 1)
    assert cold > base
    assert warm > base


def test_melting_is_half_of_boiling() -> None:
    """From -15 degC at 4300 m, melting alone takes half of what boiling takes (46 to 54 %)."""
    melt = snow_to_water_kj_per_kg(snow_temperature_c=-15, water_temperature_c=0)
    boil = snow_to_water_kj_per_kg(snow_temperature_c=-15, water_temperature_c=85.6)
    assert 0.46 < melt / boil < 0.54


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (ice_heat_capacity_kj_per_kg_k, {"temperature_c": 0.1}, "temperature_c"),
        (warming_snow_kj_per_kg, {"snow_temperature_c": -40.1}, "snow_temperature_c"),
        (warming_snow_kj_per_kg, {"snow_temperature_c": float("nan")}, "snow_temperature_c"),
        (warming_water_kj_per_kg, {"from_c": 10, "to_c": 9}, "warmed, not cooled"),
        (warming_water_kj_per_kg, {"from_c": -1, "to_c": 9}, "from_c"),
        (
            snow_to_water_kj_per_kg,
            {"snow_temperature_c": -10, "water_temperature_c": 101},
            "to_c",
        ),
        (vaporising_water_kj_per_kg, {"temperature_c": 69}, "temperature_c"),
        (snow_volume_l, {"water_l": 1, "snow_density_kg_per_m3": 918}, "snow_density"),
        (snow_volume_l, {"water_l": -1, "snow_density_kg_per_m3": 300}, "water_l"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Temperatures and densities outside the stated range are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
