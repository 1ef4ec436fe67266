"""Caches diversified: the share of a group's food or fuel in one place that is left alone."""

from dataclasses import replace
from functools import partial

import pytest

from solver.checker import check
from solver.plan import Plan
from solver.problem import Container, Problem
from tests.rules.cache_worlds import cache_world, plan_case
from tests.rules.calendar_worlds import numbered
from tests.rules.worlds import Case, plan_of, remarked

RULE = "caches_diversified"
_case = partial(plan_case, RULE)

WORLD = cache_world(None, "strip-c1-strip strip-c1-strip")
CAN = Container("can", "g1", content_ml=100, tare_g=30, volume_ml=200)
FUELLED = replace(
    WORLD, cook_groups=(replace(WORLD.cook_groups[0], containers=(replace(CAN, count=None),)),)
)


def _cached(problem: Problem, units: str, taken: str) -> Plan:
    """Some units left at c1 on day 1 and fetched on day 2; one meal is eaten at the strip."""
    trips: list[dict[str, str]] = [{"m1": units}, {}, {}, {"m1": units}]
    return plan_of(problem, *trips, stock={(0, "strip"): taken})


CASES = (
    _case("food: at", WORLD, _cached(WORLD, "g1/meal*50", "g1/meal*101")),
    _case("food: a set above", WORLD, _cached(WORLD, "g1/meal*51", "g1/meal*101"), 1),
    _case("food: all of it", WORLD, _cached(WORLD, "g1/meal*4", "g1/meal*5"), 2),
    _case("fuel: at", FUELLED, _cached(FUELLED, "g1/can*3", "g1/meal g1/can*6")),
    _case("fuel: a can above", FUELLED, _cached(FUELLED, "g1/can*4", "g1/meal g1/can*7"), 50),
    _case(
        "another share",
        numbered(WORLD, cache_share_percent=100),
        _cached(WORLD, "g1/meal*4", "g1/meal*5"),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_cache_holds_most_of_a_groups_stock(case: Case) -> None:
    """A place left alone holds no more than its share of food or fuel, told beyond it."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_night_the_place_and_the_stock_are_named() -> None:
    """The words name night, group, place and what stands there."""
    (remark,) = [
        r for r in check(CASES[4].problem, CASES[4].plan).remarks if r.finding.rule_id == RULE
    ]
    assert remark.finding.message == (
        "night of day 1: 0.400 L of fuel of cook group g1 stand alone at c1, more than 50 % of "
        "all that it has"
    )
