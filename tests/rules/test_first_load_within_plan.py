"""First load within plan: the checker at 95 per cent of each cap, and 1 g above it."""

from dataclasses import replace

import pytest

from solver.problem import Direction, LegMode, Sled
from tests.rules.worlds import Case, found, glacier, item, person, plan_of, world

RULE = "first_load_within_plan"


def _pack(name, mass_g, *over, cap_g=1_000, solvable=True, **numbers):
    problem = world(people=(person(pack_g=cap_g),), gear=(item("rope", mass_g=mass_g),))
    problem = glacier(problem, RULE, **numbers)
    plan = plan_of(problem, *({"m1": "rope"},) * 2)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


def _sled(name, tare_g, *over, total_g=None, solvable=True):
    """Sled cap of 1000 g at a factor of 80 per cent; an item of 500 g is on the sled."""
    problem = world(
        people=(person(pack_g=500, sled_g=1_000, total_g=total_g),),
        gear=(item("rope", mass_g=500),),
        sleds=(Sled("s1", "m1", tare_g=tare_g, mass_limit_g=9_000, volume_ml=9_000),),
        sled_leg_factors=(80, 100),
    )
    problem = glacier(problem, RULE)
    plan = plan_of(problem, *({"m1": "| rope"},) * 2)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


def _limited(name, mass_g, *over, solvable=True):
    """A load limit of 1000 g, below a cap of 20 kg, is a cap like the others."""
    weak = replace(person(), load_limit_g=1_000, load_limit_reason="knee")
    problem = glacier(world(people=(weak,), gear=(item("rope", mass_g=mass_g),)), RULE)
    plan = plan_of(problem, *({"m1": "rope"},) * 2)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


# The second leg has a cap of its own, all of which is used.
LESS_BEYOND = person(pack_g=1_000, pack_by_leg=((LegMode.PACK, Direction.OUTBOUND, 950),))
BEYOND = world(
    "strip-c1-c2-c1-strip",
    people=(LESS_BEYOND,),
    gear=(item("rope", mass_g=950),),
    sled_leg_factors=(100, 100),
)
BEYOND = glacier(BEYOND, RULE)

CASES = (
    _pack("950 of 1000 g", 950),
    _pack("951 of 1000 g", 951, 1, solvable=False),
    _pack("949 of 999 g", 949, cap_g=999),
    _pack("950 of 999 g", 950, 1, cap_g=999, solvable=False),
    _pack("951 g at 96 %", 951, first_load_percent=96),
    _sled("760 of 800 g", 260),
    _sled("761 of 800 g", 261, 1, solvable=False),
    _sled("760 g of 800 g in all", 260, total_g=800),
    _sled("760 g of 799 g in all", 260, 1, total_g=799, solvable=False),
    _limited("950 of a limit of 1000 g", 950),
    _limited("951 of a limit of 1000 g", 951, 1, solvable=False),
    Case("the second leg is not asked", BEYOND, plan_of(BEYOND, *({"m1": "rope"},) * 4)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_loads_from_the_start_leave_a_little_in_hand(case):
    """On the way out from the start loads are at most 95 % of their caps, rounded down."""
    assert found(case.problem, case.plan) == case.finds


def test_the_way_home_is_not_asked():
    """990 of 1000 g are 40 g too much on the way out, and nothing is said on the way home."""
    problem = world(people=(person(pack_g=1_000),), gear=(item("rope", mass_g=990),))
    problem = glacier(problem, RULE)
    assert found(problem, plan_of(problem, *({"m1": "rope"},) * 2)) == ((RULE, 40),)
