"""Last on rope light: the checker with the last sled lighter, as heavy and heavier."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Person, Sled
from tests.rules.worlds import (
    Case,
    asked_alone,
    item,
    on_glacier,
    person,
    plan_of,
    remarked,
    world,
)

RULE = "last_on_rope_light"


def _person(person_id: str, *, rope_team_id: str = "r1", is_guide: bool = False) -> Person:
    who = person(person_id, sled_g=20_000, rope_team_id=rope_team_id)
    return replace(who, is_guide=is_guide)


THREE = (_person("m1"), _person("m2"), _person("m3"))
GUIDED = (_person("m1"), _person("m2"), _person("m3", is_guide=True))
APART = (_person("m1"), _person("m2", rope_team_id="r2"))


def _case(
    name: str, people: tuple[Person, ...], loads_g: dict[str, int], *over_g: int, hauling="123"
) -> Case:
    """What each hauls on a sled of a kilogram, out and back."""
    problem = world(
        people=people,
        gear=tuple(item(f"kit-{who}", mass_g=mass_g) for who, mass_g in loads_g.items()),
        sleds=tuple(
            Sled(f"s{n}", f"m{n}", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)
            for n in hauling
            if int(n) <= len(people)
        ),
        sled_leg_factors=(100, 100),
    )
    problem = asked_alone(on_glacier(problem), RULE)
    loads = {who: f"| kit-{who}" if who[1] in hauling else f"kit-{who}" for who in loads_g}
    finds = tuple((RULE, amount) for amount in over_g)
    return Case(name, problem, plan_of(problem, loads, loads), finds)


CASES = (
    _case("lighter", THREE, {"m1": 5_000, "m2": 4_000, "m3": 3_999}),
    _case("as heavy as the lightest", THREE, {"m1": 5_000, "m2": 4_000, "m3": 4_000}),
    _case("heavier than the lightest", THREE, {"m1": 5_000, "m2": 4_000, "m3": 4_001}, 1),
    _case("no sled", THREE, {"m1": 5_000, "m2": 4_000, "m3": 6_000}, hauling="12"),
    _case("nobody else's sled", THREE, {"m1": 5_000, "m2": 4_000, "m3": 6_000}, hauling="3"),
    _case("two ropes of one", APART, {"m1": 4_000, "m2": 4_001}),
    _case("the guide leads", GUIDED, {"m1": 5_000, "m2": 4_000, "m3": 4_001}),
    _case("behind a guide", GUIDED, {"m1": 5_000, "m2": 5_010, "m3": 6_000}, 10),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_last_sled_going_down_is_no_heavier_than_any_other_of_the_rope(case):
    """As heavy as the lightest is good, a gram more is remarked, on the way down alone."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_the_last_and_the_rope_team():
    """The remark names sled, person, rope team, trip and how much more it is."""
    case = CASES[2]
    (remark,) = check(case.problem, case.plan).remarks
    assert remark.finding.message == (
        "sled s3 of m3, last of rope team r1, on day 1, c1 to strip: 5.001 kg, 0.001 kg more "
        "than the lightest of the others"
    )
