"""Hand-overs few: the checker with four and five things that change hands over night."""

import pytest

from solver.checker import check
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "hand_overs_few"
TWO = (person("m1"), person("m2"))


def _case(name: str, changing: int, *over: int) -> Case:
    """Six tools with m1, of which some are with m2 the next day."""
    problem = world("strip-c1 c1-strip", people=TWO, gear=(item("tool", count=6, mass_g=100),))
    up = {"m1": "tool*6 g1/meal*2"}
    down = {"m1": f"tool*{6 - changing}", "m2": f"tool*{changing}"}
    finds = tuple((RULE, amount) for amount in over)
    return Case(name, problem, plan_of(problem, up, down), finds)


SAME_DAY = world(people=TWO, gear=(item("tool", count=6, mass_g=100),))

CASES = (
    _case("below", 3),
    _case("at", 4),
    _case("above", 5, 1),
    Case("on one day", SAME_DAY, plan_of(SAME_DAY, {"m1": "tool*6"}, {"m2": "tool*6"})),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nobody_takes_over_more_than_four_units_from_the_day_before(case):
    """Four units from others' loads of an earlier day are fine, a fifth is remarked."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_person_day_and_units():
    """The remark names who takes over how much on which day."""
    case = CASES[2]
    told = check(case.problem, case.plan).remarks
    (remark,) = [r for r in told if r.finding.rule_id == RULE]
    assert remark.finding.message == (
        "m2 takes over 5 units on day 2 that others carried on the days before, at most 4"
    )
