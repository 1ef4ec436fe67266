"""Water of each camp: what is told, what is default, and what guidance says of it."""

import pytest

from solver.problem import Conditions
from solver.requirements.water import water
from tests.requirements.snow_world import (
    WORKED,
    figure,
    figures,
    notices,
    reckoned,
    snow_world,
    told,
    with_conditions,
    with_place,
)


@pytest.mark.parametrize(
    ("elevation_m", "total_l"), [(2999, 4.0), (3000, 4.3), (3999, 4.3), (4000, 4.6)]
)
def test_by_default_a_night_takes_more_water_higher_up(elevation_m, total_l):
    """Common practice, no source: 4.0 L low, 4.3 L from 3000 m, 4.6 L from 4000 m (exact)."""
    world = with_place(snow_world(conditions=Conditions()), "camp", elevation_m=elevation_m)
    found = reckoned(water, world)
    melted, boiled = (figure(found, name).value for name in ("water_melted", "water_boiled"))
    assert melted + boiled == pytest.approx(total_l)
    assert boiled == 2.0


def test_what_the_request_tells_is_taken():
    """Three litres melted and two boiled, as told, and no input of theirs is a default."""
    found = reckoned(water, snow_world())
    melted, boiled = figure(found, "water_melted"), figure(found, "water_boiled")
    assert (melted.value, boiled.value) == (3.0, 2.0)
    assert not told(melted, "melted").is_default
    assert not told(boiled, "boiled").is_default


def test_a_default_is_marked_and_names_its_source():
    """Water that was not told is an assumption, called common practice, no source."""
    melted = figure(reckoned(water, snow_world(conditions=Conditions())), "water_melted")
    assert told(melted, "melted").is_default
    assert "common practice, no source" in told(melted, "melted").source
    assert melted.status == "practice"


@pytest.mark.parametrize(("boiled_l", "rehydration_l"), [(2.0, 1.0), (0.6, 0.6)])
def test_water_for_dried_meals_is_inside_the_boiled(boiled_l, rehydration_l):
    """A litre goes into dried meals, and never more than is boiled (exact)."""
    found = reckoned(water, with_conditions(snow_world(), boiled_l=boiled_l))
    assert figure(found, "water_rehydration").value == rehydration_l


def test_a_camp_makes_its_water_for_every_person_and_night():
    """Two people, two nights and 5 L each are 20 L (by hand)."""
    assert figure(reckoned(water, snow_world()), "water_at_camp").value == pytest.approx(20.0)


@pytest.mark.parametrize(("melted_l", "told_of"), [(3.6, 0), (3.7, 1)])
def test_water_beyond_the_published_range_is_told(melted_l, told_of):
    """Guidance for the cold ends at 6 US quarts, 5.68 L: USARIEM courseware (quoted)."""
    found = reckoned(water, with_conditions(snow_world(), melted_l=melted_l))
    assert len(notices(found, "water_outside_guidance", place_id="camp")) == told_of


def test_a_height_out_of_range_gives_a_notice_and_no_figure():
    """At 8850 m, above the range of the height bands, there are words in place of numbers."""
    found = reckoned(water, with_place(snow_world(), "camp", elevation_m=8850))
    assert not figures(found, "water_melted")
    assert "8849" in notices(found, "water_melted_not_given")[0].message


def test_only_places_that_people_sleep_at_make_water():
    """The cache and the summit are visited but not slept at, so they make no water."""
    found = reckoned(water, snow_world(conditions=WORKED))
    assert {dict(f.about)["place_id"] for f in found.figures} == {"camp"}
