"""Fuel: which container is opened when, and what is left in it."""

from solver.checker.ledger.fuel import LackingFuel, burn
from solver.checker.ledger.meals import read_meals
from solver.problem import read_timeline
from tests.checker.replaying import burning

TWO_NIGHTS = "strip-c1 c1 c1-strip"


def _burnt(**changes):
    problem = burning(days=TWO_NIGHTS, **changes)
    meals = read_meals(problem, read_timeline(problem))
    return burn(problem, problem.cook_groups[0], meals)


def test_what_is_open_is_used_before_the_next_is_opened():
    """Two nights of 100 mL from cans of 150 mL open one can a night; the second keeps 100 mL."""
    first, second = _burnt(fuel_ml=100, content_ml=150).opened
    assert first.left_ml == {1: 50}
    assert (first.opened_day, first.emptied_day) == (1, 2)
    assert (second.opened_day, second.left_ml, second.emptied_day) == (2, {2: 100}, None)
    assert (first.empty_id, second.open_id) == ("g1/can/empty-1", "g1/can/open-2")


def test_a_can_that_is_burnt_in_one_night_is_never_open():
    """A can with just the night's fuel is empty after it, with nothing left on any night."""
    (first, _) = _burnt(fuel_ml=150, content_ml=150).opened
    assert (first.left_ml, first.emptied_day) == ({}, 1)


def test_fuel_that_no_can_has_is_lacking():
    """With one can of 150 mL the second night of 100 mL lacks 50 mL."""
    lacking = _burnt(fuel_ml=100, content_ml=150, count=1).lacking
    assert lacking == [LackingFuel("g1", 2, "c1", 50)]
