"""The fuel chain against the worked example, guidance and common practice."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.fuel_chain import FuelChain, fuel_for_water
from solver.calculators.fuels import fuel_named
from solver.calculators.water_need import water_need
from tests.calculators.published_values import misses, rows

WHITE_GAS = fuel_named(name="white_gas")
CAMP = {"snow_temperature_c": -15.0, "pressure_hpa": 592.91, "fuel": WHITE_GAS}


def chain(**given: float) -> FuelChain:
    """The worked example, 3 L melted and 2 L boiled at 4300 m, with changes."""
    return fuel_for_water(**{"melted_l": 3.0, "boiled_l": 2.0} | CAMP | given)


@pytest.mark.parametrize("row", rows("fuel_for_water"), ids=str)
def test_chain_meets_the_worked_table(row: dict[str, str]) -> None:
    """The volume of white gas is that of the table worked on reference heats (independent)."""
    assert not misses(
        lambda fuel, **given: fuel_for_water(fuel=fuel_named(name=fuel), **given).fuel_ml, row
    )


def test_chain_meets_the_worked_example_step_by_step() -> None:
    """The example takes 2664 kJ in the pot, 148.3 g and 204.6 mL, each within 1 %."""
    example = chain(efficiency=0.40)
    assert example.useful_kj == pytest.approx(2664, rel=0.01)
    assert example.fuel_g == pytest.approx(148.3, rel=0.01)
    assert example.fuel_ml == pytest.approx(204.6, rel=0.01)
    assert example.fuel_us_fl_oz == pytest.approx(6.9, abs=0.07)


@pytest.mark.parametrize(
    ("name", "lower_heating_value", "grams"),
    [
        ("white_gas", 44.9, 148),
        ("kerosene", 43.1, 155),
        ("isobutane", 45.55, 146),
        ("propane", 46.34, 144),
        ("ethanol", 26.8, 249),
    ],
)
def test_other_fuels_meet_the_worked_grams(name, lower_heating_value, grams) -> None:
    """The example burns the grams of each fuel that the worked list gives, within 0.6 g."""
    fuel = replace(fuel_named(name=name), lower_heating_value_mj_per_kg=lower_heating_value)
    burnt = fuel_for_water(melted_l=3, boiled_l=2, **CAMP | {"fuel": fuel}).fuel_g
    assert burnt == pytest.approx(grams, abs=0.6)


@pytest.mark.parametrize(("melted_l", "boiled_l", "grams"), [(1, 0, 22.6), (0, 1, 40.2)])
def test_a_litre_takes_its_worked_grams(melted_l, boiled_l, grams) -> None:
    """A litre melted to 10 degC burns 22.6 g, a litre boiled 40.2 g, at 0.40 (0.1 g)."""
    assert chain(melted_l=melted_l, boiled_l=boiled_l).fuel_g == pytest.approx(grams, abs=0.1)


@pytest.mark.parametrize("band", ["low", "mid", "high", "storm"])
@pytest.mark.parametrize("snow_c", [-5.0, -15.0, -25.0])
@pytest.mark.parametrize("hpa", [795.0, 592.9, 540.5])
def test_defaults_land_in_common_practice(band, snow_c, hpa) -> None:
    """With all water melted, defaults give 5 to 8 US fl oz per person-day (common practice)."""
    need = water_need(band=band)
    fuel = fuel_for_water(
        melted_l=need.melted_l,
        boiled_l=need.boiled_l,
        snow_temperature_c=snow_c,
        pressure_hpa=hpa,
        fuel=WHITE_GAS,
    )
    assert 5.0 <= fuel.fuel_us_fl_oz <= 8.0
    assert fuel.fuel_with_margin_ml / 29.5735 <= 8.0


@given(total_l=st.floats(3, 6), efficiency=st.floats(0.25, 0.6), snow_c=st.floats(-30, -5))
def test_results_are_sane(total_l: float, efficiency: float, snow_c: float) -> None:
    """For 3 to 6 L a day, half of it boiled, and usual efficiencies, fuel is 0.08 to 0.5 L."""
    fuel = chain(
        melted_l=total_l / 2,
        boiled_l=total_l / 2,
        efficiency=efficiency,
        snow_temperature_c=snow_c,
    )
    assert 80 <= fuel.fuel_ml <= 500


def test_two_litres_in_an_efficient_pot_fall_below_the_sane_span() -> None:
    """2 L a day at an efficiency of 0.60 take 58 mL, less than the 0.08 L of the usual span."""
    assert chain(melted_l=1, boiled_l=1, efficiency=0.60).fuel_ml == pytest.approx(58, abs=0.6)


@pytest.mark.parametrize(
    ("efficiency", "litres"), [(0.33, 0.25), (0.345, 0.2366), (0.46, 0.1774), (0.164, 0.5)]
)
def test_published_guidance_means_these_efficiencies(efficiency: float, litres: float) -> None:
    """0.25 L, 8 and 6 US fl oz and half a litre mean 0.33, 0.345, 0.46, 0.164 (1.5 %, rounding)."""
    assert chain(efficiency=efficiency).fuel_ml == pytest.approx(1000 * litres, rel=0.015)


def test_defaults_are_near_a_measured_pair() -> None:
    """A pair measured a third of a litre a day, 167 mL each (read); the default is within 5 %."""
    need = water_need(band="low")
    fuel = chain(melted_l=need.melted_l, boiled_l=need.boiled_l)
    assert fuel.fuel_ml == pytest.approx(1000 / 6, rel=0.05)


@given(
    melted_l=st.floats(0, 10),
    boiled_l=st.floats(0, 10),
    snow_c=st.floats(-39, 0),
    efficiency=st.floats(0.11, 0.75),
)
def test_fuel_grows_with_everything_that_needs_it(melted_l, boiled_l, snow_c, efficiency) -> None:
    """More water, colder snow, a worse stove, steam, simmering, priming each need more fuel."""
    given_now = {
        "melted_l": melted_l,
        "boiled_l": boiled_l + 0.1,
        "snow_temperature_c": snow_c,
        "efficiency": efficiency,
    }
    here = chain(**given_now).fuel_ml
    for change in (
        {"melted_l": melted_l + 0.1},
        {"boiled_l": boiled_l + 0.2},
        {"snow_temperature_c": snow_c - 1},
        {"efficiency": efficiency - 0.01},
        {"drink_temperature_c": 11.0 if melted_l > 0.01 else 10.0, "priming_g": 1.0},
        {"steam_fraction": 0.05},
        {"simmer_minutes_at_sea_level": 5.0},
    ):
        assert chain(**given_now | change).fuel_ml > here


@given(hpa=st.floats(380, 1000))
def test_thin_air_saves_heat_but_lengthens_simmering(hpa: float) -> None:
    """Ten hPa less lower the heat to the boil, and raise the fuel that simmering takes."""
    here = chain(pressure_hpa=hpa, simmer_minutes_at_sea_level=10.0)
    thin = chain(pressure_hpa=hpa - 10, simmer_minutes_at_sea_level=10.0)
    assert thin.boiling_kj < here.boiling_kj
    assert thin.simmering_kj > here.simmering_kj


@pytest.mark.parametrize(("hpa", "kj"), [(1013.25, 376.9), (592.91, 316.5), (472.18, 292.5)])
def test_heat_to_the_boil_falls_with_height(hpa: float, kj: float) -> None:
    """From 10 degC to the boil takes 376.9, 316.5, 292.5 kJ/kg at 0, 4300, 6000 m (0.3 %)."""
    here = chain(pressure_hpa=hpa)
    assert here.boil_kj_per_l - here.melt_kj_per_l == pytest.approx(kj, rel=0.003)


def test_a_lidless_pot_costs_a_sixth() -> None:
    """Steam of 5 % adds about 16 % to the heat from 0 degC that the boiled water takes."""
    steam = chain(melted_l=0.0, boiled_l=1.0, steam_fraction=0.05)
    assert steam.steam_kj / steam.boiling_kj == pytest.approx(0.16, abs=0.005)


def test_the_printed_parts_add_up() -> None:
    """Warming, melting and warming again add up to the heat of a litre, for both kinds of water."""
    here = chain()
    ice = here.warming_snow_kj_per_kg + here.fusion_kj_per_kg
    assert here.melt_kj_per_l == pytest.approx(ice + here.warming_to_drink_kj_per_kg)
    assert here.boil_kj_per_l == pytest.approx(ice + here.warming_to_boil_kj_per_kg)
    assert here.useful_kj == pytest.approx(here.melting_kj + here.boiling_kj)


def test_steam_in_the_thinnest_air_takes_the_heat_of_70_degrees() -> None:
    """At 300 hPa water boils at 69.1 degC, and steam is reckoned with the 2333 kJ/kg of 70 degC."""
    here = chain(pressure_hpa=300.0, boiled_l=1.0, steam_fraction=0.1)
    assert here.steam_kj == pytest.approx(233.3, abs=0.05)


def test_simmering_is_power_times_lengthened_time() -> None:
    """Ten minutes at 250 W are 150 kJ at 100 degC, and 2.71 times that at 4300 m (85.6 degC)."""
    here = chain(simmer_minutes_at_sea_level=10.0)
    assert here.simmering_kj == pytest.approx(150 * 2.71, rel=0.002)


def test_margin_is_a_number_of_its_own() -> None:
    """The margin is 12 % unless said otherwise, and the fuel without it does not move with it."""
    none, some = chain(margin_fraction=0.0), chain()
    assert some.fuel_ml == none.fuel_ml == none.fuel_with_margin_ml
    assert some.margin_ml == pytest.approx(0.12 * some.fuel_ml)
    assert some.fuel_with_margin_ml == pytest.approx(some.fuel_ml + some.margin_ml)
    assert some.fuel_with_margin_g == pytest.approx(1.12 * some.fuel_g)


@pytest.mark.parametrize(
    "change",
    [
        {"melted_l": -0.1},
        {"boiled_l": float("nan")},
        {"snow_temperature_c": 0.1},
        {"pressure_hpa": 59_291},
        {"efficiency": 0.09},
        {"efficiency": 40},
        {"drink_temperature_c": 61},
        {"steam_fraction": 0.31},
        {"simmer_minutes_at_sea_level": -1},
        {"simmer_w": -1},
        {"priming_g": -1},
        {"margin_fraction": 12},
    ],
)
def test_out_of_range_is_refused(change) -> None:
    """Each argument outside its range is refused by its name."""
    with pytest.raises(ValueError, match=next(iter(change))):
        chain(**change)
