"""Sled cap held: the checker at, above and below a hauler's cap times the leg's factor."""

import pytest

from solver.problem import Problem, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(sled_g: int, *, up_percent: int = 50, down_percent: int = 100) -> Problem:
    """Eight kilograms on a sled of two, on a person whose pack takes next to nothing."""
    return world(
        people=(person(pack_g=100, sled_g=sled_g),),
        gear=(item("kit", mass_g=8_000),),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=90_000),),
        sled_leg_factors=(up_percent, down_percent),
    )


def _case(name: str, problem: Problem, *over_g: int) -> Case:
    plan = plan_of(problem, {"m1": "| kit"}, {"m1": "| kit"})
    finds = tuple(("sled_cap_held", amount) for amount in over_g)
    return Case(name, problem, plan, finds, solvable=not over_g)


def _shared(second_sled_g: int, *, second_percent: int = 40) -> Problem:
    """Ten kilograms on a sled that two pull, the first with more than enough to spare."""
    return world(
        people=(person(pack_g=100, sled_g=50_000), person("m2", pack_g=100, sled_g=second_sled_g)),
        gear=(item("kit", mass_g=8_000),),
        sleds=(
            Sled(
                "s1",
                "m1",
                tare_g=2_000,
                mass_limit_g=90_000,
                volume_ml=90_000,
                second_hauler_id="m2",
                second_share_percent=second_percent,
            ),
        ),
        sled_leg_factors=(100, 100),
    )


CASES = (
    _case("two haulers, the second's share at the cap", _shared(4_000)),
    _case("two haulers, the second's share above", _shared(3_999), 3, 3),
    _case("two haulers, a smaller share", _shared(3_999, second_percent=39)),
    _case("below", _world(20_002)),
    _case("at, with half a gram rounded down", _world(20_001)),
    _case("at", _world(20_000)),
    _case("above on the way up, rounded down", _world(19_999), 1),
    _case("above on the way down only", _world(20_000, down_percent=49), 200),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_with_its_tare_weighs_at_most_the_haulers_cap_times_the_factor(case):
    """Half of 19.999 kg is 9.999 kg, which a sled of ten kilograms is one gram above."""
    assert found(case.problem, case.plan) == case.finds
