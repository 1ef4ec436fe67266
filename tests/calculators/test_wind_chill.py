"""Wind chill against the printed charts of two weather services."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.wind_chill import (
    frostbite_band,
    frostbite_minutes,
    wind_chill_c,
    wind_chill_f,
)
from tests.calculators.published_values import misses, rows


def test_metric_index_meets_the_printed_chart() -> None:
    """All 192 values of the Canadian chart, and three of a library, are met (independent)."""
    missed = [(row, text) for row in rows("wind_chill_c") if (text := misses(wind_chill_c, row))]
    assert missed == []


def test_us_index_meets_the_printed_chart() -> None:
    """All 132 values of the US chart with unmistakable labels are met (independent)."""
    missed = [(row, text) for row in rows("wind_chill_f") if (text := misses(wind_chill_f, row))]
    assert missed == []


@pytest.mark.parametrize(("air_c", "wind_km_h"), [(-5.0, 12.0), (-27.5, 63.0), (-41.0, 8.0)])
def test_metric_index_agrees_with_thermofeel(air_c: float, wind_km_h: float) -> None:
    """At values outside the file, the thermofeel library agrees within 0.001 K."""
    thermofeel = pytest.importorskip(
        "thermofeel", reason="the thermofeel library is a test dependency and is not installed"
    )
    kelvin = thermofeel.calculate_wind_chill(air_c + 273.15, wind_km_h / 3.6)
    ours = wind_chill_c(air_temperature_c=air_c, wind_km_h=wind_km_h)
    assert ours == pytest.approx(float(kelvin) - 273.15, abs=0.001)


@given(air_c=st.floats(-50, 10), wind_km_h=st.floats(0, 79))
def test_more_wind_never_feels_warmer(air_c: float, wind_km_h: float) -> None:
    """One km/h more never raises the index, and wind never warms above the air."""
    here = wind_chill_c(air_temperature_c=air_c, wind_km_h=wind_km_h)
    assert wind_chill_c(air_temperature_c=air_c, wind_km_h=wind_km_h + 1) <= here
    assert here <= air_c


@given(air_c=st.floats(-50, 0))
def test_the_low_wind_formula_meets_the_other(air_c: float) -> None:
    """Just below 5 km/h the formula for low wind gives what the other gives there, within 0.1 K."""
    low = wind_chill_c(air_temperature_c=air_c, wind_km_h=5 - 1e-9)
    assert low == pytest.approx(wind_chill_c(air_temperature_c=air_c, wind_km_h=5), abs=0.1)


@given(air_c=st.floats(-42, 9), wind_km_h=st.floats(8, 80))
def test_both_unit_systems_agree(air_c: float, wind_km_h: float) -> None:
    """The US index, converted, is the metric one within 0.2 K, by its rounded constants."""
    metric = wind_chill_c(air_temperature_c=air_c, wind_km_h=wind_km_h)
    us = wind_chill_f(air_temperature_f=air_c * 1.8 + 32, wind_mph=wind_km_h / 1.609344)
    assert (us - 32) / 1.8 == pytest.approx(metric, abs=0.2)


@pytest.mark.parametrize("row", rows("frostbite_band"), ids=str)
def test_frostbite_bands_have_the_tables_edges(row: dict[str, str]) -> None:
    """Each edge of the hazard table, and values between two bands, fall into the worse band."""
    assert not misses(lambda **given: frostbite_band(**given).name, row)


@pytest.mark.parametrize("row", rows("frostbite_minutes"), ids=str)
def test_frostbite_minutes_meet_their_equation(row: dict[str, str]) -> None:
    """The unverified equation gives the worked minutes (typing slips only)."""
    assert not misses(frostbite_minutes, row)


def test_frostbite_minutes_end_at_a_quarter_of_an_hour() -> None:
    """At 40 km/h it is used at -20 degC, 14.3 min, and refused at -19.5 degC, 15.1 min."""
    assert frostbite_minutes(air_temperature_c=-20, wind_km_h=40) == pytest.approx(14.3, abs=0.05)
    with pytest.raises(ValueError, match="within 15 minutes"):
        frostbite_minutes(air_temperature_c=-19.5, wind_km_h=40)


@pytest.mark.parametrize(
    ("air_c", "wind_km_h", "least", "most"),
    [(-25, 40, 5, 10), (-30, 40, 2, 10), (-35, 50, 2, 5), (-40, 60, 0, 5)],
)
def test_frostbite_minutes_are_near_their_band(air_c, wind_km_h, least, most) -> None:
    """The unverified minutes lie in the hazard table's band or the next one (independent)."""
    minutes = frostbite_minutes(air_temperature_c=air_c, wind_km_h=wind_km_h)
    assert least <= minutes <= most


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (wind_chill_c, {"air_temperature_c": 10.1, "wind_km_h": 20}, "air_temperature_c"),
        (wind_chill_c, {"air_temperature_c": -51, "wind_km_h": 20}, "air_temperature_c"),
        (wind_chill_c, {"air_temperature_c": -20, "wind_km_h": 80.1}, "wind_km_h"),
        (wind_chill_c, {"air_temperature_c": -20, "wind_km_h": -1}, "wind_km_h"),
        (wind_chill_f, {"air_temperature_f": 51, "wind_mph": 20}, "air_temperature_f"),
        (wind_chill_f, {"air_temperature_f": 0, "wind_mph": 61}, "wind_mph"),
        (frostbite_band, {"wind_chill_c": 11}, "wind_chill_c"),
        (frostbite_minutes, {"air_temperature_c": -30, "wind_km_h": 24}, "wind_km_h"),
        (frostbite_minutes, {"air_temperature_c": -14, "wind_km_h": 40}, "air_temperature_c"),
        (frostbite_minutes, {"air_temperature_c": -16, "wind_km_h": 25}, "within 15 minutes"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Air and wind beyond the published charts are refused by name, not extrapolated."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
