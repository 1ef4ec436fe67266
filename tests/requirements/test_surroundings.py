"""What a place is taken to be like, by night and by day, and what people eat there."""

from dataclasses import replace

import pytest

from solver.problem import Conditions, Place, read_timeline
from solver.requirements.appetite import appetite_loss
from solver.requirements.balance import balance
from solver.requirements.consumption import night_meals
from solver.requirements.daytime import daytime
from solver.requirements.energy import read_needs
from solver.requirements.surroundings import (
    as_given,
    as_given_or,
    assumed,
    elevation,
    night_temperature,
    out_of_range,
    places_visited,
    pressure,
    sleepers,
    snow_temperature,
    wind,
)
from tests.requirements.snow_world import figure, figures, snow_world, with_conditions, with_leg
from tests.requirements.walking_world import Walk, leg

WORLD = snow_world()


def test_an_input_says_whether_it_was_given():
    """A given value goes before the default, and only a default has a source."""
    assert as_given_or("x", 2.0, 5.0, "m") == as_given("x", 2.0, "m")
    default = as_given_or("x", None, 5.0, "m")
    assert default == assumed("x", 5.0, "m")
    assert default.source
    assert not as_given("x", 2.0, "m").source


def test_a_night_is_8_degrees_colder_than_the_standard_atmosphere():
    """At sea level 15 - 8 = 7 degC, at 3000 m 15 - 19.5 - 8 = -12.5 degC; a given night holds."""
    assert night_temperature(elevation_m=0, night_temperature_c=None).value == 7.0
    assert night_temperature(elevation_m=3_000, night_temperature_c=None).value == -12.5
    assert night_temperature(elevation_m=3_000, night_temperature_c=-1.0).value == -1.0


@pytest.mark.parametrize(("night_c", "snow_c"), [(5.0, 0.0), (-12.0, -12.0), (-55.0, -40.0)])
def test_snow_is_as_cold_as_the_night_within_limits(night_c, snow_c):
    """Snow is never warmer than 0 degC, and the melting model ends at -40 degC."""
    night = as_given("night_temperature", night_c, "degC")
    assert snow_temperature(night, Conditions()).value == snow_c
    assert snow_temperature(night, Conditions(snow_temperature_c=-3.0)).value == -3.0


def test_air_gets_thinner_and_wind_has_a_default():
    """1013.25 hPa at sea level and less above; 30 km/h where no wind is given."""
    assert pressure(elevation_m=0).value == pytest.approx(1_013.25)
    assert pressure(elevation_m=5_000).value < 550
    assert (wind(Conditions()).value, wind(Conditions(wind_kmh=12.0)).value) == (30.0, 12.0)
    assert elevation(Place("a", 4_300)) == as_given("elevation", 4_300, "m")


def test_nights_and_places_are_counted_in_order():
    """Two people for two nights are four person-nights; places come in the order of visits."""
    timeline = read_timeline(WORLD)
    assert sleepers(timeline) == {"camp": 4}
    assert places_visited(timeline) == ("road", "cache", "camp", "summit")


def test_a_figure_out_of_range_becomes_words():
    """The notice has the figure's name and the words of the error."""
    notice = out_of_range("snow_melt", (("day", 1),), ValueError("too cold"))
    assert (notice.notice_id, notice.message) == ("snow_melt_not_given", "No snow melt: too cold")


def test_a_given_day_is_as_cold_as_it_feels():
    """With wind -20 degC feel colder; a given leg's own wind goes before that of the request."""
    calm = with_leg(WORLD, "l1", day_temperature_c=-20.0, day_wind_kmh=0.0)
    blown = with_leg(WORLD, "l1", day_temperature_c=-20.0, day_wind_kmh=50.0)
    still, windy = (daytime(world, world.route.legs[0]) for world in (calm, blown))
    assert still.temperature.value == windy.temperature.value == -20.0
    assert windy.felt_c < still.felt_c - 5
    assert windy.wind.value == 50.0


def test_weather_beyond_the_chart_is_held_at_its_end():
    """-60 degC and 300 km/h are taken as the ends of the range, in words."""
    world = with_leg(WORLD, "l1", day_temperature_c=-60.0, day_wind_kmh=300.0)
    assert daytime(world, world.route.legs[0]).held == (
        "-60 degC is taken as -50 degC",
        "a wind of 300 km/h is taken as 200 km/h",
    )


def test_a_warmer_night_at_the_higher_end_warms_the_day():
    """By day a leg is never colder than the night given at its higher end."""
    world = with_leg(WORLD, "l1")
    warm = replace(
        world,
        route=replace(
            world.route,
            places=tuple(replace(p, night_temperature_c=12.0) for p in world.route.places),
        ),
    )
    assert daytime(warm, warm.route.legs[0]).temperature.value == 12.0


def test_appetite_falls_with_elevation():
    """None is lost at 2500 m, 43 % at 8848 m; a given share holds only high up."""
    assert appetite_loss(WORLD, 2_500).value == 0
    assert appetite_loss(WORLD, 8_848).value == pytest.approx(0.43, abs=0.001)
    given = with_conditions(WORLD, appetite_loss_share=0.3)
    assert appetite_loss(given, 2_500).value == 0
    assert appetite_loss(given, 6_000) == as_given("appetite_loss", 0.3, "share")


def test_a_deficit_is_need_less_food():
    """Over one night the deficit is the mean need of its two days less the energy eaten."""
    problem = Walk(leg(distance_m=5_000), camp_m=2_008).problem()
    timeline = read_timeline(problem)
    needs = read_needs(problem, timeline)
    found = balance(problem, night_meals(problem, timeline), needs)
    deficit = figure(found, "energy_deficit", person_id="ann")
    need = (needs.days["ann", 1].kcal + needs.days["ann", 2].kcal) / 2
    assert deficit.value == pytest.approx(need - 4_100)
    assert deficit.low < deficit.value < deficit.high


def test_more_food_costs_less_of_the_body():
    """Half the energy of the sets costs more mass; without energy nothing is said."""

    def found(energy_kcal):
        walk = Walk(leg(distance_m=5_000))
        problem = replace(
            walk, night_set=replace(walk.night_set, energy_kcal=energy_kcal)
        ).problem()
        timeline = read_timeline(problem)
        return balance(problem, night_meals(problem, timeline), read_needs(problem, timeline))

    poor, rich = (figure(found(kcal), "body_mass_lost").value for kcal in (1_000, 4_100))
    assert poor > rich >= 0
    assert figures(found(None), "body_mass_lost") == []
