"""What the nights eat when their own sets are used up, and what they lack at all."""

from dataclasses import replace

from solver.problem import (
    Container,
    CookGroup,
    History,
    Reserve,
    ReserveKind,
    Standing,
    read_timeline,
)
from solver.rest.menus import eat_what_is_left
from solver.rest.shortfalls import shortfalls
from tests.rules.worlds import MEAL, person, world

STORM = replace(MEAL, set_id="storm", storm=True)
BEST = replace(MEAL, set_id="best")
CAN = Container("can", "g1", 100, tare_g=100, volume_ml=200, count=2)


def _after_night_1(*standing, reserves=(), fuel_ml=0):
    sets = (replace(MEAL, fuel_ml=fuel_ml), STORM, BEST)
    group = CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (CAN,) if fuel_ml else ())
    problem = world(
        "strip-c1 c1 c1 c1-strip", people=(person("m1"),), groups=(group,), night_sets=sets
    )
    stands = tuple(Standing("c1", unit, count) for unit, count in standing)
    history = History(1, after_night=True, standing=stands)
    return replace(problem, history=history, reserves=tuple(reserves))


def _eaten(problem):
    return eat_what_is_left(problem, read_timeline(problem)).cook_groups[0].set_on


def _short(problem):
    return [(f.rule_id, f.amount) for f in shortfalls(problem, read_timeline(problem))]


def test_other_sets_fill_in_storm_sets_first():
    """Two nights to come and one set of their own: the first eats a storm set."""
    both = (("g1/meal", 1), ("g1/storm", 1), ("g1/best", 1))
    assert _eaten(_after_night_1(*both)) == ((2, "storm"),)
    assert _eaten(_after_night_1(("g1/best", 2))) == ((2, "best"), (3, "best"))
    assert _eaten(_after_night_1(("g1/meal", 2), ("g1/storm", 2))) == ()


def test_sets_of_a_reserve_are_left_alone():
    """The only storm set is held in reserve, so nobody eats it unasked."""
    held = Reserve("c1", "g1", ReserveKind.STORM, 1, "storm")
    problem = _after_night_1(("g1/meal", 1), ("g1/storm", 1), reserves=[held])
    assert _eaten(problem) == ()
    assert _short(problem) == [("night_sets_held", 1)]


def test_what_is_lacking_is_counted():
    """Two nights and no set at all lack two; with two nothing is lacking."""
    assert _short(_after_night_1()) == [("night_sets_held", 2)]
    assert _short(_after_night_1(("g1/meal", 2))) == []


def test_fuel_that_nobody_has_is_counted():
    """Three nights of 100 mL on two cans lack 100 mL."""
    found = _short(_after_night_1(("g1/meal", 2), ("g1/can", 1), fuel_ml=100))
    assert found == [("fuel_held", 100)]


def test_before_the_start_nothing_is_short():
    """Without a history that is the business of other checks."""
    problem = replace(_after_night_1(), history=None)
    assert _short(problem) == []
    assert eat_what_is_left(problem, read_timeline(problem)) == problem
