"""Sled limit held: the checker at, above and below a sled's own limit times the leg's factor."""

import pytest

from solver.problem import Problem, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(mass_limit_g: int) -> Problem:
    """Eight kilograms on a sled of two, at 70 % on the way up and all of it down."""
    return world(
        people=(person(pack_g=100, sled_g=90_000),),
        gear=(item("kit", mass_g=8_000),),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=mass_limit_g, volume_ml=90_000),),
        sled_leg_factors=(70, 100),
    )


def _case(name: str, problem: Problem, *over_g: int) -> Case:
    plan = plan_of(problem, {"m1": "| kit"}, {"m1": "| kit"})
    finds = tuple(("sled_limit_held", amount) for amount in over_g)
    return Case(name, problem, plan, finds, solvable=not over_g)


CASES = (
    _case("below", _world(14_288)),
    _case("at", _world(14_286)),
    _case("above", _world(14_285), 1),
    _case("above both ways", _world(9_900), 3_070, 100),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_weighs_at_most_its_own_limit_times_the_factor(case):
    """70 % of 14.286 kg is ten kilograms, of 14.285 kg a gram less, both rounded down."""
    assert found(case.problem, case.plan) == case.finds
