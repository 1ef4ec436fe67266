"""Sled volume held: the checker at, above and below a sled's volume."""

import pytest

from solver.problem import Problem, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(volume_ml: int) -> Problem:
    """Five litres that only the sled can carry; the leg's factor does not shrink its room."""
    return world(
        people=(person(pack_g=100, sled_g=90_000),),
        gear=(item("kit", mass_g=8_000, volume_ml=5_000),),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=volume_ml),),
        sled_leg_factors=(50, 100),
    )


def _case(name: str, problem: Problem, over_ml: int = 0) -> Case:
    plan = plan_of(problem, {"m1": "| kit"}, {"m1": "| kit"})
    finds = (("sled_volume_held", over_ml),) * (2 if over_ml else 0)
    return Case(name, problem, plan, finds, solvable=not over_ml)


CASES = (
    _case("below", _world(5_001)),
    _case("at", _world(5_000)),
    _case("above", _world(4_999), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_takes_its_volume_and_no_allowance(case):
    """What is on a sled takes at most its volume, whatever the leg's factor."""
    assert found(case.problem, case.plan) == case.finds
