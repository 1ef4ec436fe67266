"""Limited load within rope team: the checker with rope-mates and others loaded more or less."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Person
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "limited_load_within_rope_team"


def _people(limit_g: int | None = 5_000, team_of_m2: str = "r1") -> tuple[Person, ...]:
    """Caps of 10 kg: 100 g are a whole per cent."""
    return (
        replace(person("m1", pack_g=10_000), load_limit_g=limit_g, load_limit_reason="knee"),
        person("m2", pack_g=10_000, rope_team_id=team_of_m2),
        person("m3", pack_g=10_000, rope_team_id="r2"),
    )


def _case(
    name: str, mate_g: int, other_g: int, *less: int, people: tuple[Person, ...] | None = None
) -> Case:
    """What the rope-mate and the one of the other team carry out and back."""
    problem = world(
        people=people or _people(),
        gear=(item("mates", mass_g=mate_g), item("others", mass_g=other_g)),
    )
    finds = tuple((RULE, amount) for amount in less)
    return Case(name, problem, plan_of(problem, *({"m2": "mates", "m3": "others"},) * 2), finds)


CASES = (
    _case("mate more", 3_100, 3_000),
    _case("alike", 3_000, 3_000),
    _case("alike in whole per cent", 3_000, 3_099),
    _case("mate less", 3_000, 3_100, 1, 1),
    _case("nobody spared", 3_000, 4_000, people=_people(None)),
    _case("no mate", 3_000, 4_000, people=_people(team_of_m2="r2")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_rope_mates_of_one_who_is_spared_carry_no_less_than_others(case):
    """A whole per cent less than the other teams is remarked on each trip, equal is fine."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_the_one_who_is_spared():
    """The remark names trip, person and both shares."""
    case = CASES[3]
    words = [r.finding.message for r in check(case.problem, case.plan).remarks]
    assert words[0] == (
        "day 1, strip to c1: the rope team of m1, who is spared, carries up to 30 % of its "
        "caps, others up to 31 %"
    )
