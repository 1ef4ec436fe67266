"""Pack light for body: the checker with packs around 33 and 45 % of a body on steep ground."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import LegMode
from tests.rules.legs import with_legs
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "pack_light_for_body"
BODY_G = 40_000
"""33 % of it are 13.2 kg, 45 % are 18 kg."""


def _case(
    name: str,
    mass_g: int,
    *over: int,
    body_g: int | None = BODY_G,
    is_strong: bool = False,
    angle_deg: float | None = 20.0,
    mode: LegMode = LegMode.PACK,
    flying_g: int | None = None,
    axe_g: int = 0,
) -> Case:
    """So much in one pack, out and back on a leg."""
    people = (replace(person(), body_mass_g=body_g, is_strong=is_strong, flying_mass_g=flying_g),)
    axe = replace(item("axe", mass_g=axe_g), owner_id="m1", in_use_on=(mode,))
    gear = (item("kit", mass_g=mass_g), *((axe,) if axe_g else ()))
    problem = world(people=people, gear=gear)
    units = "kit axe" if axe_g else "kit"
    problem = with_legs(problem, steepest_deg=angle_deg, mode=mode)
    finds = tuple((RULE, amount) for amount in over)
    return Case(name, problem, plan_of(problem, {"m1": units}, {"m1": units}), finds)


CASES = (
    _case("below", 13_199),
    _case("at", 13_200),
    _case("above", 13_201, 1),
    _case("at the emergency figure", 18_000, 4_800),
    _case("above the emergency figure", 18_001, 4_801, 1),
    _case("less steep", 13_201, angle_deg=19.99),
    _case("angle not said", 13_201, angle_deg=None),
    _case("fixed rope", 13_201, 1, angle_deg=None, mode=LegMode.FIXED_ROPE),
    _case("strong", 18_001, is_strong=True),
    _case("what is worn counts", 13_200, 1_000, flying_g=BODY_G + 1_000),
    _case("what is in use counts", 13_200, 500, axe_g=500),
    _case("the more of the two counts", 13_200, 1_000, flying_g=BODY_G + 1_000, axe_g=500),
    _case("body not said", 500, 500, body_g=None),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_pack_on_steep_ground_is_at_most_33_percent_of_the_body(case):
    """From 20 degrees up and on ropes a pack above 33 % of the body is remarked, once a person."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_tell_an_emergency_load():
    """A pack above 45 % of the body is called one for emergencies only."""
    case = CASES[4]
    told = [r.finding for r in check(case.problem, case.plan).remarks]
    first, second = (finding.message for finding in told if finding.rule_id == RULE)
    pack = "pack of m1 on day 1, strip to c1: 18.001 kg is 45.0 % of the body"
    assert first == f"{pack}, at most 33 % on steep ground, 4.801 kg over"
    assert second == f"{pack}, above 45 % is for emergencies only, 0.001 kg over"


def test_an_unknown_body_is_not_judged_good():
    """Without a body mass the remark says that there is nothing to judge the pack by."""
    case = CASES[-1]
    told = check(case.problem, case.plan).remarks
    (remark,) = [r for r in told if r.finding.rule_id == RULE]
    assert "body mass to judge it by is not given" in remark.finding.message
