"""Sled share uphill: the checker with sleds at both ends of the band of each slope."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import RuleSettings, Sled
from tests.rules.legs import with_legs
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "sled_share_uphill"
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def _case(name: str, angle_deg: float | None, sled_g: int, *outside: int) -> Case:
    """Pack and sled of ten kilograms together, out and back; what comes down is not judged."""
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
    # Whether a leg is too steep for sleds at all is another rule's question.
    off = RuleSettings(switched_off=frozenset({"sled_slope_limited"}))
    problem = replace(problem, rules=off)
    finds = tuple((RULE, amount) for amount in outside)
    return Case(name, problem, plan_of(problem, *({"m1": "m1/own | kit"},) * 2), finds)


CASES = (
    _case("flat, least", 0.0, 4_500),
    _case("flat, below", 0.0, 4_499, 1),
    _case("flat, most", 9.99, 6_500),
    _case("flat, above", 9.99, 6_501, 1),
    _case("gentle, least", 10.0, 3_000),
    _case("gentle, below", 10.0, 2_999, 1),
    _case("gentle, most", 19.99, 5_000),
    _case("gentle, above", 10.0, 5_001, 1),
    _case("gentle, as on the flat", 10.0, 6_500, 15),
    _case("steep, least", 20.0, 1_500),
    _case("steep, below", 20.0, 1_499, 1),
    _case("steep, most", 20.0, 3_500),
    _case("steep, above", 25.0, 3_501, 1),
    _case("steep, as on gentle slopes", 20.0, 5_000, 15),
    _case("too steep for this rule", 25.01, 3_501),
    _case("angle not said", None, 9_000),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_going_up_has_its_share_for_the_slope(case):
    """The ends of each band are good, a hair beyond them is remarked in whole per cent."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_sled_trip_share_and_band():
    """The remark names the sled and its hauler, the share that it has and the band."""
    case = CASES[8]
    told = [r.finding for r in check(case.problem, case.plan).remarks]
    (finding,) = [f for f in told if f.rule_id == RULE]
    assert finding.message == (
        "sled s1 of m1 on day 1, strip to c1: 65.0 % of pack and sled, 30 to 50 % is good here"
    )
