"""Sled share downhill: the checker with sleds at both ends of the band going down."""

import pytest

from solver.problem import Sled
from tests.rules.legs import with_legs
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "sled_share_downhill"
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def _case(name: str, angle_deg: float | None, sled_g: int, *outside: int) -> Case:
    """Pack and sled of ten kilograms together, out and back; what goes up is not judged."""
    problem = world(
        people=(person(sled_g=40_000),),
        gear=(
            item("own", mass_g=10_000 - sled_g, owner_id="m1"),
            item("kit", mass_g=sled_g - 1_000),
        ),
        sleds=(SLED,),
        sled_leg_factors=(100, 100),
    )
    problem = with_legs(problem, steepest_deg=angle_deg)
    finds = tuple((RULE, amount) for amount in outside)
    return Case(name, problem, plan_of(problem, *({"m1": "m1/own | kit"},) * 2), finds)


CASES = (
    _case("least", 10.0, 2_000),
    _case("below", 10.0, 1_999, 1),
    _case("most", 19.99, 4_500),
    _case("above", 19.99, 4_501, 1),
    _case("far above", 10.0, 6_000, 15),
    _case("flat", 9.99, 6_000),
    _case("steep", 20.0, 6_000),
    _case("angle not said", None, 6_000),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_going_down_a_slope_has_20_to_45_percent(case):
    """From 10 to below 20 degrees the ends of the band are good, a hair beyond is remarked."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_band_down_is_lower_than_the_band_up():
    """Down the same slope both ends of the band are below those of the band up."""
    rules = CASES[0].problem.rules
    for end in ("least", "most"):
        up, down = (rules.whole(f"{way}_{end}_sled_percent") for way in ("gentle", "down"))
        assert down < up
