"""Lead sled light: the checker with the lead's sled around 80 % of the cap."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Person, Problem, Sled
from tests.rules.legs import with_first_leg
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

RULE = "lead_sled_light"


def _people(guide: str = "") -> tuple[Person, ...]:
    return tuple(replace(person(who, sled_g=20_000), is_guide=who == guide) for who in ("m1", "m2"))


def _world(people: tuple[Person, ...], sled_g: int, days: str = "strip-c1-strip") -> Problem:
    """A kit for one sled of a kilogram; half of 20 kg may be hauled, 80 % of which are 8 kg."""
    return world(
        days,
        people=people,
        gear=(item("kit", mass_g=sled_g - 1_000),),
        sleds=tuple(
            Sled(f"s{n}", f"m{n}", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)
            for n in (1, 2)
        ),
        sled_leg_factors=(50, 50),
    )


def _case(name: str, sled_g: int, *over_g: int, hauler: str = "m1", guide: str = "") -> Case:
    problem = asked_alone(on_glacier(_world(_people(guide), sled_g)), RULE)
    finds = tuple((RULE, amount) for amount in over_g)
    return Case(name, problem, plan_of(problem, *({hauler: "| kit"},) * 2), finds)


# The sled stays at c1, where the leg that says its hazard begins.
FAR = with_first_leg(
    on_glacier(_world(_people(), 9_000, "strip-c1-c2-c1-strip")), crevasse_hazard=None
)
FAR = asked_alone(FAR, RULE)

CASES = (
    _case("below", 7_999),
    _case("at", 8_000),
    _case("above, out and back", 8_001, 1, 1),
    _case("not the lead", 8_001, hauler="m2"),
    _case("a guide leads", 8_001, 1, 1, hauler="m2", guide="m2"),
    _case("behind a guide", 8_001, guide="m2"),
    Case(
        "no hazard said of the sled's leg",
        FAR,
        plan_of(FAR, {"m1": "| kit"}, {"m1": "kit"}, {"m1": "kit"}, {"m1": "| kit"}),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_lead_on_a_crevassed_leg_hauls_at_most_80_percent_of_the_cap(case):
    """80 % of cap times factor is good for the lead of a rope team, a gram more is remarked."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_the_lead_and_the_limit():
    """The remark names sled, lead, rope team, mass and limit."""
    case = CASES[2]
    words = [r.finding.message for r in check(case.problem, case.plan).remarks]
    assert words[0] == (
        "sled s1 of m1, lead of rope team r1, on day 1, strip to c1: 8.001 kg, at most "
        "8.000 kg, 80 % of the cap, is good for a lead here"
    )
