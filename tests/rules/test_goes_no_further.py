"""Goes no further: what goes up to a place, at it, beyond it for a day, for a night, by others."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Need, NeedKind
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "goes_no_further"
DAYS = "strip-c1 c1-c2-c1 c1-strip"
NIGHTLY = Need(NeedKind.EVERY_NIGHT, up_to="c1")
ON_TRIPS = Need(NeedKind.EVERY_TRIP, up_to="c1")
BELONGS = Need(NeedKind.AT_PLACE, up_to="c1")


def _case(name, need, *loads, finds=(), days=DAYS, solvable=None, **of_item) -> Case:
    problem = world(days, gear=(item("pot", need, **of_item),), rules=None)
    plan = plan_of(problem, *({"m1": units} for units in loads))
    return Case(name, problem, plan, finds, not finds if solvable is None else solvable)


ONE, TWO = ((RULE, 1),), ((RULE, 2),)
UP = "pot g1/meal*2"
# To c2 for a night: the pot waits at c1 below.
SLEEPING = "strip-c1 c1-c2 c2-c1-strip"

CASES = (
    _case("stays at its place", NIGHTLY, UP, "", "", "pot"),
    _case("goes along for a day", NIGHTLY, UP, "pot", "pot", "pot", finds=ONE, solvable=True),
    _case(
        "both go along for a day",
        NIGHTLY,
        "pot*2 g1/meal*2",
        "pot*2",
        "pot*2",
        "pot*2",
        finds=TWO,
        solvable=True,
        count=2,
    ),
    _case("rides where it may", ON_TRIPS, UP, "", "", "pot"),
    _case("rides where it may not", ON_TRIPS, UP, "pot", "pot", "pot", finds=ONE, solvable=True),
    _case("waits while they sleep beyond", NIGHTLY, UP, "g1/meal", "", "pot", days=SLEEPING),
    _case(
        "somebody's own",
        replace(NIGHTLY),
        "m1/pot g1/meal*2",
        "m1/pot",
        "m1/pot",
        "m1/pot",
        finds=ONE,
        solvable=True,
        owner_id="m1",
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nothing_is_taken_beyond_where_it_goes(case):
    """What goes up to c1 is never at c2, not for a day either."""
    assert tuple(f for f in found(case.problem, case.plan) if f[0] == RULE) == case.finds


def test_others_do_not_take_it_further():
    """A pot that one rope team needs up to c1 is not carried on by the other."""
    people = (person("m1"), person("m2", rope_team_id="r2", cook_group_id="g1"))
    gear = (item("pot", NIGHTLY, rope_team_id="r1"),)
    problem = world(DAYS, people=people, gear=gear)
    plan = plan_of(problem, {"m1": "pot"}, {"m2": "pot"}, {"m2": "pot"}, {"m1": "pot"})
    assert ONE[0] in found(problem, plan)


def test_the_words_name_item_and_places():
    """A pot taken to c2 for a day is told with how far it goes."""
    case = next(case for case in CASES if case.name == "goes along for a day")
    (finding,) = (f for f in check(case.problem, case.plan).findings if f.rule_id == RULE)
    assert finding.message == "pot goes no further than c1, but 1 are taken to c2"
    assert dict(finding.where) == {"place": "c2", "unit": "pot"}
