"""Trash and human waste by night and stay, reckoned by hand, and what takes them down."""

from dataclasses import replace

import pytest

from solver.problem import Day, Visit
from solver.requirements.waste import waste
from tests.requirements.snow_world import figure, figures, notices, reckoned, snow_world


def two_stays():
    """Two nights at the camp, one at the cache, one more at the camp."""
    world = snow_world()
    visits = [
        ("road", "cache", "camp"), ("camp",), ("camp", "cache"), ("cache", "camp"),
        ("camp", "cache", "road"),
    ]  # fmt: skip
    days = tuple(Day((Visit(("rope",), places),)) for places in visits)
    (group,) = world.cook_groups
    group = replace(group, set_at=(("camp", "high"), ("cache", "high")))
    return replace(world, calendar=replace(world.calendar, days=days), cook_groups=(group,))


def test_a_night_leaves_packaging_and_human_waste():
    """Two people leave 2 × 50 g of packaging and 2 × 150 g of waste on a night (by hand)."""
    found = reckoned(waste, snow_world())
    assert figure(found, "trash", place_id="camp", day=1).value == 100
    assert figure(found, "human_waste", place_id="camp", day=1).value == 300


def test_a_stay_leaves_the_sum_of_its_nights():
    """Two nights at the camp are 200 g of trash and 600 g of waste by its last night."""
    found = reckoned(waste, snow_world())
    assert figure(found, "trash_of_stay", place_id="camp", stay=1, day=2).value == 200
    assert figure(found, "human_waste_of_stay", place_id="camp", stay=1, day=2).value == 600


def test_a_stay_that_is_broken_off_is_two():
    """A night elsewhere ends the stay; the second one at the camp is a night long (by hand)."""
    found = reckoned(waste, two_stays())
    assert figure(found, "human_waste_of_stay", place_id="camp", stay=1).value == 600
    assert figure(found, "human_waste_of_stay", place_id="camp", stay=2).value == 300
    assert len(figures(found, "human_waste_containers", place_id="camp")) == 2


@pytest.mark.parametrize("world", [snow_world(), two_stays()], ids=["one stay", "two stays"])
def test_all_of_it_is_in_the_loads_of_the_way_down(world):
    """What the nights leave is what goes down in sacks, to the gram, and that is said."""
    found = reckoned(waste, world)
    left = sum(f.value for name in ("trash", "human_waste") for f in figures(found, name))
    assert figure(found, "waste_carried_down").value == left
    assert "in the homeward loads" in notices(found, "waste_in_loads")[0].message


@pytest.mark.parametrize(("nights", "containers"), [(5, 1), (6, 2), (11, 2), (12, 3)])
def test_a_container_of_eight_litres_serves_13_uses(nights, containers):
    """12 uses for 7 L are 13.7 for 8 L: 10 person-nights are 12 uses, 12 are 15, 24 are 29.

    By volume one would serve 26 person-nights; uses are the stricter count.
    """
    found = reckoned(waste, snow_world(nights=nights))
    (stay, at_once) = figures(found, "human_waste_containers")
    assert (stay.value, at_once.value) == (containers, containers)


def test_containers_are_used_again_after_a_stay():
    """Three stays one after another need one container at a time, not three."""
    found = reckoned(waste, two_stays())
    assert [f.value for f in figures(found, "human_waste_containers") if not f.about] == [1]


@pytest.mark.parametrize(("grams", "told_of"), [(127, 1), (128, 0)])
def test_less_waste_than_people_make_is_told(grams, told_of):
    """The median is 128 g a person and day: Rose et al. 2015, 10.1080/10643389.2014.1000761."""
    world = snow_world()
    lean = replace(world, waste=replace(world.waste, waste_g_per_person_night=grams))
    assert len(notices(reckoned(waste, lean), "waste_below_measured")) == told_of
