"""Air and cold of places and legs against printed tables, and what is said of defaults."""

from dataclasses import replace

import pytest

from solver.problem import Season
from solver.requirements.air import COLD_INJURY, air
from tests.requirements.snow_world import (
    figure,
    figures,
    notices,
    reckoned,
    snow_world,
    told,
    with_conditions,
    with_leg,
    with_place,
)


@pytest.mark.parametrize(
    ("elevation_m", "pressure_hpa"), [(1458, 850.0), (3013, 700.0), (4209, 600.0), (7193, 400.0)]
)
def test_pressure_is_that_of_the_icao_table(elevation_m, pressure_hpa):
    """850, 700, 600, 400 hPa stand at 1457, 3012, 4206, 7185 gpm: ICAO Doc 7488 (0.1 hPa)."""
    found = reckoned(air, with_place(snow_world(), "camp", elevation_m=elevation_m))
    pressure = figure(found, "air_pressure", place_id="camp")
    assert pressure.value == pytest.approx(pressure_hpa, abs=0.1)


def test_water_boils_as_in_the_steam_tables():
    """At 700 hPa water boils at 89.93 degC: IAPWS-IF97 steam tables, 0.07 MPa (0.02 K)."""
    found = reckoned(air, with_place(snow_world(), "camp", elevation_m=3013))
    assert figure(found, "boiling_point", place_id="camp").value == pytest.approx(89.93, abs=0.02)


@pytest.mark.parametrize(
    ("night_c", "wind_kmh", "chill_c"), [(-15, 30, -26), (-20, 40, -34), (-30, 50, -49)]
)
def test_wind_chill_is_that_of_the_printed_chart(night_c, wind_kmh, chill_c):
    """The Environment Canada chart prints these whole degrees (0.5 K)."""
    world = with_conditions(snow_world(), wind_kmh=wind_kmh)
    found = reckoned(air, with_place(world, "camp", night_temperature_c=night_c))
    chill = figure(found, "wind_chill", place_id="camp")
    assert chill.value == pytest.approx(chill_c, abs=0.5)
    assert not told(chill, "wind").is_default


@pytest.mark.parametrize(
    ("night_c", "minutes"),
    [
        (-15.0, "more than 30 min"),
        (-20.0, "10 to 30 min"),
        (-25.0, "5 to 10 min"),
        (-30.0, "5 to 10 min"),
    ],
)
def test_frostbite_comes_in_the_band_of_the_table(night_c, minutes):
    """At 30 km/h these feel like -26, -33, -39.1 and -46: Environment Canada's table (quoted).

    What lies between two whole degrees, as -39.1, counts as the colder one.
    """
    found = reckoned(air, with_place(snow_world(), "camp", night_temperature_c=night_c))
    assert minutes in notices(found, "frostbite_band", place_id="camp")[0].message


def test_a_night_that_is_not_told_is_a_default_that_says_so():
    """4300 m has -12.9 degC in the standard atmosphere; 8 K less is -20.9 degC (0.1 K)."""
    found = reckoned(air, with_place(snow_world(), "camp", night_temperature_c=None))
    night = told(figure(found, "wind_chill", place_id="camp"), "night_temperature")
    assert night.value == pytest.approx(-20.9, abs=0.1)
    assert night.is_default
    assert "common practice, no source" in night.source


def test_a_wind_that_is_not_told_is_thirty_kilometres_an_hour():
    """Common practice, no source, and marked as a default."""
    found = reckoned(air, with_conditions(snow_world(), wind_kmh=None))
    wind = told(figure(found, "wind_chill", place_id="camp"), "wind")
    assert (wind.value, wind.is_default) == (30.0, True)


@pytest.mark.parametrize(("wind_kmh", "told_of"), [(80.0, 0), (81.0, 1)])
def test_a_wind_beyond_the_chart_is_told(wind_kmh, told_of):
    """The published chart ends at 80 km/h; a stronger wind is reckoned as that, and said so."""
    found = reckoned(air, with_conditions(snow_world(), wind_kmh=wind_kmh))
    assert len(notices(found, "wind_beyond_chart", place_id="camp")) == told_of
    assert told(figure(found, "wind_chill", place_id="camp"), "wind").value == 80.0


def test_a_night_above_ten_degrees_has_no_wind_chill():
    """The index ends at 10 degC; a mild night has words in its place and the mildest clothes."""
    found = reckoned(air, with_place(snow_world(), "road", night_temperature_c=12.0))
    assert not figures(found, "wind_chill", place_id="road")
    assert "allowed is -50 to 10 degC" in notices(found, "wind_chill_not_given")[0].message
    assert figure(found, "clothing_band", place_id="road").value == 1


@pytest.mark.parametrize(
    ("night_c", "band"), [(-3.0, 1), (-10.0, 2), (-16.0, 3), (-23.0, 4), (-36.0, 5)]
)
def test_clothing_follows_the_bands(night_c, band):
    """In still air -5, -15, -22 and -35 degC begin a band: common practice, no source."""
    world = with_conditions(snow_world(), wind_kmh=0.0)
    found = reckoned(air, with_place(world, "camp", night_temperature_c=night_c))
    assert figure(found, "clothing_band", place_id="camp").value == band


def test_a_leg_is_as_cold_as_its_day():
    """To a summit of 5000 m a spring day has -17.5 - 5.5 = -23 degC (0.1 K), not its night's."""
    leg = figure(reckoned(air, snow_world()), "clothing_band", leg_id="l3")
    day = told(leg, "day_temperature")
    assert day.value == pytest.approx(-23.0, abs=0.1)
    assert day.is_default
    assert "spring" in day.source


def test_a_leg_in_winter_is_colder():
    """In winter the same leg has -17.5 - 15 = -32.5 degC, but the summit's night is warmer, -25."""
    world = with_conditions(snow_world(), season=Season.WINTER)
    leg = figure(reckoned(air, world), "clothing_band", leg_id="l3")
    assert told(leg, "day_temperature").value == -25.0
    open_night = with_place(world, "summit", night_temperature_c=None)
    leg = figure(reckoned(air, open_night), "clothing_band", leg_id="l3")
    assert told(leg, "day_temperature").value == pytest.approx(-32.5, abs=0.1)


def test_temperature_and_wind_of_a_leg_win():
    """What a leg says of its day is taken, whatever its nights and the trip's wind are."""
    world = with_leg(snow_world(), "l3", day_temperature_c=-5.0, day_wind_kmh=10.0)
    leg = figure(reckoned(air, world), "clothing_band", leg_id="l3")
    assert (told(leg, "day_temperature").value, told(leg, "wind").value) == (-5.0, 10.0)
    assert not told(leg, "day_temperature").is_default


def test_a_leg_colder_than_the_chart_is_held_and_said():
    """A day of -60 degC has the band of -50 degC, the chart's end, and the words say so."""
    found = reckoned(air, with_leg(snow_world(), "l3", day_temperature_c=-60.0))
    assert figure(found, "clothing_band", leg_id="l3").value == 5
    (notice,) = notices(found, "clothing_band", leg_id="l3")
    assert "-60 degC is taken as -50 degC" in notice.message


def test_high_latitude_is_told_of_each_camp_with_its_pressure():
    """The profile has 593.2 and 515.8 hPa at 4 and 5 km (AFGL-TR-86-0110): 569 at 4300 m (1)."""
    found = reckoned(air, with_conditions(snow_world(), high_latitude=True))
    winter = figure(found, "winter_pressure", place_id="camp")
    assert winter.value == pytest.approx(569, abs=1)
    assert notices(found, "high_latitude_winter", place_id="camp")[0].is_caution


def test_low_latitude_brings_no_winter_caution():
    """A trip that is told to be at low latitude hears nothing of high ones."""
    found = reckoned(air, with_conditions(snow_world(), high_latitude=False))
    assert not notices(found, "high_latitude_winter")


def test_an_untold_latitude_is_said_once_of_the_highest_camp():
    """Where nothing is told the caution says so, once, and there is no figure."""
    found = reckoned(air, snow_world())
    (caution,) = notices(found, "high_latitude_winter")
    assert "is not given" in caution.message
    assert not figures(found, "winter_pressure")


def test_a_height_beyond_the_standard_atmosphere_is_told():
    """Above 9000 m there is no pressure and no boiling point, but words."""
    world = snow_world()
    found = reckoned(air, with_place(world, "summit", elevation_m=9001))
    assert not figures(found, "air_pressure", place_id="summit")
    assert not figures(found, "boiling_point", place_id="summit")
    assert notices(found, "air_pressure_not_given", place_id="summit")
    assert figures(found, "wind_chill", place_id="summit")


def test_places_that_nobody_visits_are_left_out():
    """A trip that stays at the camp says nothing of the summit."""
    world = snow_world()
    camp, _, down = world.calendar.days
    still = replace(camp, visits=(replace(camp.visits[0], places=("camp",)),))
    world = replace(world, calendar=replace(world.calendar, days=(camp, still, down)))
    assert not figures(reckoned(air, world), "air_pressure", place_id="summit")


def test_cold_injury_is_a_caution_of_every_trip():
    """The caution stands once, as a caution."""
    found = reckoned(air, snow_world())
    assert found.notices.count(COLD_INJURY) == 1
    assert COLD_INJURY.is_caution
