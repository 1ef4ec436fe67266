"""Planning limit kept: the checker with loads at, above and below 95 % of a cap."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import RuleSettings
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "planning_limit_kept"


def _case(name: str, mass_g: int, *over: int, rules: RuleSettings | None = None) -> Case:
    """So much out and back in a pack with a cap of ten kilograms."""
    problem = world(
        people=(person(pack_g=10_000),), gear=(item("kit", mass_g=mass_g),), rules=rules
    )
    finds = tuple((RULE, amount) for amount in over)
    return Case(name, problem, plan_of(problem, {"m1": "kit"}, {"m1": "kit"}), finds)


def _limited(name: str, mass_g: int, *over: int) -> Case:
    """So much in a pack with a cap of twenty kilograms, on somebody limited to ten."""
    weak = replace(person(), load_limit_g=10_000, load_limit_reason="knee")
    problem = world(people=(weak,), gear=(item("kit", mass_g=mass_g),))
    finds = tuple((RULE, amount) for amount in over)
    return Case(name, problem, plan_of(problem, {"m1": "kit"}, {"m1": "kit"}), finds)


CASES = (
    _limited("at 95 % of a load limit", 9_500),
    _limited("above 95 % of a load limit", 9_501, 1),
    _case("below", 9_499),
    _case("at", 9_500),
    _case("above", 9_501, 1),
    _case("at the cap", 10_000, 500),
    _case("another limit", 9_501, 501, rules=RuleSettings(numbers=(("planned_load_percent", 90),))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_load_is_planned_to_95_percent_of_its_cap(case):
    """95 % of a cap is well planned, a ten-thousandth more is remarked, once for each person."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_the_worst_trip_and_how_many_more():
    """The remark names person, trip, share and limit, and that the other trip is above as well."""
    case = next(case for case in CASES if case.name == "above")
    told = check(case.problem, case.plan).remarks
    (remark,) = [r for r in told if r.finding.rule_id == RULE]
    assert remark.finding.message == (
        "load of m1 on day 1, strip to c1: 95.01 % of the cap, planned is at most 95 %, "
        "and on 1 more trips"
    )
