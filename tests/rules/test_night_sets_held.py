"""Night sets held: too many, just enough and too few bags where people sleep."""

import pytest

from solver.checker import check
from solver.problem import NightSet
from tests.rules.worlds import Case, found, person, plan_of, world

RULE = "night_sets_held"
FOUR = tuple(person(f"m{i}") for i in range(1, 5))
BAG_OF_TWO = NightSet("meal", "g1", 100, 0, 0, 0, 0, sets_per_bag=2)
WORLD = world("strip-c1 c1 c1-strip", people=FOUR, night_sets=(BAG_OF_TWO,))
"""Four people, two nights at c1, bags of two: two bags each night."""


def _case(name: str, bags: int, *over: int, back: int = 0) -> Case:
    plan = plan_of(WORLD, {"m1": f"g1/meal*{bags}"}, {"m1": f"g1/meal*{back}"})
    return Case(name, WORLD, plan, tuple((RULE, n) for n in over))


CASES = (
    _case("above, the spare comes back", 5, back=1),
    _case("at", 4),
    _case("one bag too few", 3, 2),
    _case("none for the second night", 2, 4),
    _case("none at all", 0, 4, 4),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_there_is_a_night_set_for_everybody_who_sleeps_there(case):
    """Missing bags are told night by night in night sets, and in nothing else."""
    assert found(case.problem, case.plan) == case.finds


def test_the_finding_names_group_night_place_and_numbers():
    """The message says who lacks what where, needed, there and missing."""
    (finding,) = check(WORLD, CASES[2].plan).findings
    assert finding.message == (
        "cook group g1 on the night of day 2 at c1: 4 night sets meal needed, 2 there, 2 too few"
    )
    assert dict(finding.where) == {"day": 2, "place": "c1", "unit": "g1/meal"}


def test_bags_of_a_fixed_number_stand_at_the_start_whatever_is_needed():
    """Of three bags taken along four cannot be loaded, and the last night goes without."""
    three = NightSet("meal", "g1", 100, 0, 0, 0, 0, sets_per_bag=2, bag_count=3)
    problem = world("strip-c1 c1 c1-strip", people=FOUR, night_sets=(three,))
    plan = plan_of(problem, {"m1": "g1/meal*4"}, {})
    assert found(problem, plan) == (("units_conserved", 1), (RULE, 2))
