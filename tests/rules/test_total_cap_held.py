"""Total cap held: the checker at, above and below a hauler's cap on pack and sled together."""

import pytest

from solver.problem import Problem, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(total_g: int | None) -> Problem:
    """Three kilograms of own kit and one of water in the pack, six and the sled's two behind."""
    return world(
        people=(person(pack_g=9_999, sled_g=8_000, total_g=total_g, water_g=1_000),),
        gear=(item("kit", mass_g=6_000), item("own", mass_g=3_000, owner_id="m1")),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=90_000),),
        sled_leg_factors=(100, 100),
    )


def _case(name: str, problem: Problem, over_g: int = 0) -> Case:
    plan = plan_of(problem, *({"m1": "m1/own | kit"},) * 2)
    finds = (("total_cap_held", over_g),) * (2 if over_g else 0)
    return Case(name, problem, plan, finds, solvable=not over_g)


def _shared(total_g: int) -> Problem:
    """Three kilograms in the pack of the second of two who share a sled of at most 20 kg."""
    return world(
        people=(
            person(sled_g=20_000),
            person("m2", pack_g=9_000, sled_g=20_000, total_g=total_g),
        ),
        gear=(item("own", mass_g=3_000, owner_id="m2"),),
        sleds=(
            Sled(
                "s1",
                "m1",
                tare_g=2_000,
                mass_limit_g=20_001,
                volume_ml=90_000,
                second_hauler_id="m2",
                second_share_percent=30,
            ),
        ),
        sled_leg_factors=(100, 100),
    )


def _shared_case(name: str, problem: Problem, over_g: int = 0) -> Case:
    plan = plan_of(problem, *({"m2": "m2/own"},) * 2)
    finds = (("total_cap_held", over_g),) * (2 if over_g else 0)
    return Case(name, problem, plan, finds, solvable=not over_g)


CASES = (
    _shared_case("two haulers: 30 % of 20.001 kg, rounded up, and 3 kg", _shared(9_001)),
    _shared_case("two haulers, a gram above", _shared(9_000), 1),
    _case("below", _world(12_001)),
    _case("at", _world(12_000)),
    _case("above", _world(11_999), 1),
    _case("no total cap", _world(None)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_pack_and_sled_together_weigh_at_most_the_total_cap(case):
    """Water, own kit, sled tare and what is on it count together, to the gram."""
    assert found(case.problem, case.plan) == case.finds


def test_the_total_cap_is_not_asked_where_no_sled_is_hauled():
    """A pack without a sled may weigh more than the total cap, up to the pack's own."""
    problem = world(
        people=(person(pack_g=9_000, sled_g=8_000, total_g=8_000),),
        gear=(item("kit", mass_g=9_000),),
    )
    assert found(problem, plan_of(problem, {"m1": "kit"}, {"m1": "kit"})) == ()
