"""The standard atmosphere against the ICAO table and two libraries."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.atmosphere import (
    geopotential_height_m,
    geopotential_height_of_pressure_m,
    inspired_oxygen_hpa,
    pressure_at_geopotential_hpa,
    standard_pressure_hpa,
    standard_temperature_c,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("geopotential_height_m"), ids=str)
def test_geopotential_height_follows_icao(row: dict[str, str]) -> None:
    """Geometric metres turn into the geopotential metres of ICAO 1993 (independent)."""
    assert not misses(geopotential_height_m, row)


@pytest.mark.parametrize("row", rows("pressure_at_geopotential_hpa"), ids=str)
def test_pressure_at_geopotential_follows_the_closed_formula(row: dict[str, str]) -> None:
    """The geopotential form gives the pressures of a library that uses it (independent)."""
    assert not misses(pressure_at_geopotential_hpa, row)


@pytest.mark.parametrize("row", rows("standard_pressure_hpa"), ids=str)
def test_standard_pressure_follows_icao(row: dict[str, str]) -> None:
    """A height on the map has the pressure of ICAO 1993 (independent)."""
    assert not misses(standard_pressure_hpa, row)


@pytest.mark.parametrize(
    ("height_m", "hpa"), [(3000, 701.2), (4300, 592.9), (5200, 526.2), (6000, 472.2)]
)
def test_either_kind_of_height_is_within_half_a_hectopascal(height_m: float, hpa: float) -> None:
    """Mistaking geometric for geopotential metres costs under 0.5 hPa (independent)."""
    assert standard_pressure_hpa(geometric_height_m=height_m) == pytest.approx(hpa, abs=0.5)
    assert pressure_at_geopotential_hpa(geopotential_height_m=height_m) == pytest.approx(
        hpa, abs=0.5
    )


@pytest.mark.parametrize("row", rows("geopotential_height_of_pressure_m"), ids=str)
def test_height_of_pressure_meets_the_icao_table(row: dict[str, str]) -> None:
    """Whole pressures stand at the heights of the printed ICAO table (independent)."""
    assert not misses(geopotential_height_of_pressure_m, row)


@pytest.mark.parametrize("row", rows("standard_temperature_c"), ids=str)
def test_standard_temperature_follows_icao(row: dict[str, str]) -> None:
    """A height on the map has the air temperature of ICAO 1993 (independent)."""
    assert not misses(standard_temperature_c, row)


@pytest.mark.parametrize("row", rows("inspired_oxygen_hpa"), ids=str)
def test_inspired_oxygen_meets_its_equation(row: dict[str, str]) -> None:
    """Moist air in the windpipe has the oxygen that the equation gives (typing slips only)."""
    assert not misses(inspired_oxygen_hpa, row)


def test_water_vapour_at_body_temperature_agrees_with_coolprop() -> None:
    """The pressure of water vapour taken off, 62.7 hPa, is that of water at 37 degC (0.2 hPa)."""
    coolprop = pytest.importorskip(
        "CoolProp.CoolProp", reason="the CoolProp library is a test dependency and is not installed"
    )
    vapour_hpa = coolprop.PropsSI("P", "T", 310.15, "Q", 0, "Water") / 100.0
    without_oxygen = 1000.0 - inspired_oxygen_hpa(pressure_hpa=1000.0) / 0.2094
    assert without_oxygen == pytest.approx(vapour_hpa, abs=0.2)


@pytest.mark.parametrize("height_m", [500.0, 2750.0, 4888.0, 7321.0])
def test_two_libraries_agree_at_other_heights(height_m: float) -> None:
    """At heights outside the file, ambiance and fluids give the same within 0.01 hPa."""
    ambiance = pytest.importorskip(
        "ambiance", reason="the ambiance library is a test dependency and is not installed"
    )
    fluids = pytest.importorskip(
        "fluids", reason="the fluids library is a test dependency and is not installed"
    )
    ours = standard_pressure_hpa(geometric_height_m=height_m)
    assert ours == pytest.approx(float(ambiance.Atmosphere(height_m).pressure[0]) / 100, abs=0.01)
    assert ours == pytest.approx(fluids.ATMOSPHERE_1976(height_m).P / 100, abs=0.01)


@given(height_m=st.floats(-500, 8999))
def test_pressure_falls_with_height_and_comes_back(height_m: float) -> None:
    """A metre higher has less pressure, and the inverse gives the height back within 0.1 m."""
    here = pressure_at_geopotential_hpa(geopotential_height_m=height_m)
    assert pressure_at_geopotential_hpa(geopotential_height_m=height_m + 1) < here
    if 307.5 <= here <= 1074.5:
        back = geopotential_height_of_pressure_m(pressure_hpa=here)
        assert back == pytest.approx(height_m, abs=0.1)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (geopotential_height_m, {"geometric_height_m": 9001}, "geometric_height_m"),
        (pressure_at_geopotential_hpa, {"geopotential_height_m": -502}, "geopotential_height_m"),
        (standard_pressure_hpa, {"geometric_height_m": 14_000}, "geometric_height_m"),
        (geopotential_height_of_pressure_m, {"pressure_hpa": 306}, "pressure_hpa"),
        (standard_temperature_c, {"geometric_height_m": float("nan")}, "geometric_height_m"),
        (inspired_oxygen_hpa, {"pressure_hpa": 62}, "pressure_hpa"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Heights in feet and pressures of other units are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
