"""Stoves kept apart: the checker with one, two and three stoves in a pack and on a sled."""

import pytest

from solver.checker import check
from solver.problem import Purpose
from tests.rules.apart_worlds import SLED, TWO
from tests.rules.worlds import Case, found, glacier, item, person, plan_of, world

RULE = "stoves_kept_apart"


def _case(name, count, loads, *over, solvable=True, people=TWO):
    gear = (item("stove", count=count, purpose=Purpose.STOVE),)
    problem = world(people=people, gear=gear, sleds=(SLED,), sled_leg_factors=(100, 100))
    problem = glacier(problem, RULE)
    plan = plan_of(problem, loads, loads)
    return Case(name, problem, plan, tuple((RULE, n) for n in over) * 2, solvable)


HAULER = (person("m1", sled_g=20_000),)

CASES = (
    _case("one alone", 1, {"m1": "stove"}),
    _case("two in two packs", 2, {"m1": "stove", "m2": "stove"}),
    _case("two in one pack", 2, {"m1": "stove*2"}, 1),
    _case("two of three in one pack", 3, {"m1": "stove*2", "m2": "stove"}, 1),
    _case("three, one on the sled", 3, {"m1": "stove | stove", "m2": "stove"}),
    _case("three in one pack", 3, {"m2": "stove*3"}, 2),
    _case("two on the sled", 2, {"m1": "| stove*2"}, 1),
    _case(
        "four for three carriers", 4, {"m1": "stove | stove", "m2": "stove*2"}, 1, solvable=False
    ),
    _case("pack and sled of one alone", 2, {"m1": "stove | stove"}, people=HAULER),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_pack_or_sled_has_two_stoves(case):
    """One pack or sled has at most one stove, however many are on the trip."""
    assert found(case.problem, case.plan) == case.finds


def test_the_finding_names_the_pack_and_the_stoves():
    """Two stoves in one pack are told with the carrier, the trip and what may be."""
    case = CASES[2]
    told = check(case.problem, case.plan).findings[0].message
    assert told == "pack of m1 on day 1, strip to c1: 2 stoves in it, at most 1 may be"
