"""Sled light on traverse: the checker with sleds around 70 % of what they may be straight up."""

import pytest

from solver.checker import check
from solver.problem import Sled
from tests.rules.legs import with_legs
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "sled_light_on_traverse"
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def _case(name: str, sled_g: int, *over_g: int, traverse: bool = True) -> Case:
    """A sled that may be half of 40 kg straight up, 70 % of which are 14 kg, out and back."""
    problem = world(
        people=(person(sled_g=40_000),),
        gear=(item("kit", mass_g=sled_g - 1_000),),
        sleds=(SLED,),
        sled_leg_factors=(50, 100),
    )
    problem = with_legs(problem, traverse=traverse)
    finds = tuple((RULE, amount) for amount in over_g)
    return Case(name, problem, plan_of(problem, *({"m1": "| kit"},) * 2), finds)


CASES = (
    _case("below", 13_999),
    _case("at", 14_000),
    _case("above, out and back", 14_001, 1, 1),
    _case("no traverse", 14_001, traverse=False),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_on_a_traverse_is_at_most_70_percent_of_what_it_may_be_up(case):
    """70 % of cap times uphill factor is good on a side-slope, a gram more is remarked."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_sled_mass_and_limit():
    """The remark names the sled, what it weighs and what would be good."""
    case = CASES[2]
    words = [r.finding.message for r in check(case.problem, case.plan).remarks]
    assert words[0] == (
        "sled s1 of m1 on day 1, strip to c1: 14.001 kg on a traverse, at most 14.000 kg, 70 % "
        "of what it may be straight up, is good here"
    )
