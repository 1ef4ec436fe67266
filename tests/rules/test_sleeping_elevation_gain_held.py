"""Sleeping elevation gain held: metres a night in the mean, and a rest in each thousand metres."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Conditions, Problem, SleepingRule
from tests.rules.calendar_worlds import climb, hard_case, numbered, told
from tests.rules.worlds import RequestCase, person, request_found, world

RULE = "sleeping_elevation_gain_held"
_case = partial(hard_case, RULE)


def _by_rule(
    rule: SleepingRule, *heights_m: int, days: str = "strip-c1 c1-c2 c2-c1-strip"
) -> Problem:
    return replace(climb(days, *heights_m), conditions=Conditions(sleeping_rule=rule))


ONE_NIGHT = "strip-c1 c1-c2 c2-c1-strip"
TWO_NIGHTS = "strip-c1 c1 c1-c2 c2-c1-strip"
FOUR_NIGHTS = "strip-c1 c1 c1 c1 c1-c2 c2-c1-strip"
IN_STEPS = "strip-c1 c1 c1 c1-c2 c2-c3 c3-c2-c1-strip"

CASES = (
    _case("mean: at", climb(ONE_NIGHT, 2000, 3000, 3500)),
    _case("mean: a metre above", climb(ONE_NIGHT, 2000, 3000, 3501), 1),
    _case("mean: two nights below carry twice the step", climb(TWO_NIGHTS, 2000, 3000, 4000)),
    _case("mean: half a metre above counts as one", climb(TWO_NIGHTS, 2000, 2900, 3901), 1),
    _case("no higher than the threshold", climb(ONE_NIGHT, 0, 1000, 3000)),
    _case(
        "the night at the threshold is where it begins",
        climb("strip strip-c1 c1-strip", 0, 3001),
        2501,
    ),
    _case("rest: at", climb(FOUR_NIGHTS, 2000, 3000, 4000)),
    _case("rest: a metre above", climb(FOUR_NIGHTS, 2000, 3000, 4001), 1),
    _case("rest: two steps without a rest between", climb(IN_STEPS, 2000, 3000, 3500, 4000)),
    _case("rest: two steps of a metre more", climb(IN_STEPS, 2000, 3000, 3500, 4001), 1),
    _case("a rule named in the conditions: at", _by_rule(SleepingRule.CAUTIOUS, 1500, 2500, 2800)),
    _case("a rule named: above", _by_rule(SleepingRule.CAUTIOUS, 1500, 2500, 2801), 1),
    _case(
        "a named rule without a rest by metres leaves the rulebook's",
        _by_rule(SleepingRule.WMS, 2000, 3000, 4001, days=FOUR_NIGHTS),
        1,
    ),
    _case(
        "a stated number goes before a named rule",
        numbered(_by_rule(SleepingRule.CAUTIOUS, 1500, 2500, 2801), sleeping_gain_m=301),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_sleeping_height_rises_slowly_enough(case: RequestCase) -> None:
    """The mean since the last low camp and the gain since the last rest keep their limits."""
    assert request_found(case.problem, RULE) == case.finds


def test_people_who_sleep_alike_are_told_once() -> None:
    """Two people on the same climb make one finding, which names the place and a way out."""
    both = world(ONE_NIGHT, people=(person("m1"), person("m2")))
    heights = climb(ONE_NIGHT, 2000, 3000, 3600).route
    (finding,) = told(hard_case(RULE, "", replace(both, route=heights)).problem, RULE)
    assert "c2, m1 and 1 more" in finding.message
    assert dict(finding.where) == {"day": 2, "place": "c2", "person": "m1"}
    assert any("stay more nights at c1" in change for change in finding.instead)


def test_a_night_where_one_has_slept_as_high_is_no_gain() -> None:
    """Who goes down to rest and comes back to the same camp has not gained height."""
    down_and_back = "strip-c1 c1 c1-c2 c2-c1 c1-c2 c2-c1-strip"
    assert not told(hard_case(RULE, "", climb(down_and_back, 2000, 3000, 4000)).problem, RULE)
