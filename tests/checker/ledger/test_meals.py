"""Meals: what each cook group eats each night, and the lunch that goes with it."""

from solver.checker.ledger.meals import read_lunches, read_meals
from solver.problem import NightSet, read_timeline
from tests.rules.worlds import person, world

BAGS = NightSet("meal", "g1", 500, 30, lunch_g=200, volume_ml=900, fuel_ml=0, sets_per_bag=2)


def _meals(people: int):
    roster = tuple(person(f"m{n}", first_lunch_g=150) for n in range(people))
    problem = world("strip-c1 c1 c1-strip", people=roster, night_sets=(BAGS,))
    return problem, read_meals(problem, read_timeline(problem))


def test_bags_are_opened_whole():
    """Three people with two sets a bag open two bags a night, and leave three sets' packaging."""
    _, (first, second) = _meals(3)
    assert (first.day, first.place_id, first.people) == (1, "c1", 3)
    assert (first.bags, first.packaging_g) == (2, 90)
    assert second.day == 2


def test_lunch_is_that_of_the_night_before():
    """Day 1 has the lunch from home, each later day that of the set eaten the night before."""
    problem, meals = _meals(1)
    assert read_lunches(problem, meals) == {("m0", 1): 150, ("m0", 2): 200, ("m0", 3): 200}


def test_a_group_without_members_eats_nothing():
    """A cook group that nobody belongs to has no meals."""
    problem = world("strip-c1 c1-strip", people=(person("m1", cook_group_id="g9"),))
    assert read_meals(problem, read_timeline(problem)) == ()
