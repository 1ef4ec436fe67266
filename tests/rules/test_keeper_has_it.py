"""Keeper has it: the checker with a thing at its keeper's, at others', and its keeper away."""

from dataclasses import replace

import pytest

from tests.rules.worlds import Case, asked_alone, item, person, plan_of, remarked, world

RULE = "keeper_has_it"
STOVE = replace(item("stove"), keeper_id="m1")
PICKETS = replace(item("picket", count=3), keeper_id="m1")


def _case(name: str, up: dict[str, str], down: dict[str, str], *loads: int) -> Case:
    """Two people up to c1 and down the next day."""
    problem = asked_alone(
        world("strip-c1 c1-strip", people=(person("m1"), person("m2")), gear=(STOVE, PICKETS)),
        RULE,
    )
    return Case(name, problem, plan_of(problem, up, down), tuple((RULE, n) for n in loads))


ALL = {"m1": "stove picket*3"}
CASES = (
    _case("with the keeper", ALL, ALL),
    _case("once with another", ALL, {"m1": "picket*3", "m2": "stove"}, 1),
    _case("two of a bundle", {"m1": "stove picket", "m2": "picket*2"}, ALL, 2),
    _case("not on this trip at all", {"m1": "stove"}, {"m1": "stove"}),
    _case("both on both", {"m2": "stove picket*3"}, {"m2": "stove picket*3"}, 1, 3, 1, 3),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_others_have_of_a_keeper_is_remarked(case: Case) -> None:
    """Each trip and thing counts once, with as many units as are with others."""
    assert sorted(remarked(case.problem, case.plan, RULE)) == sorted(case.finds)


def test_a_keeper_who_is_not_on_the_trip_misses_nothing() -> None:
    """Whoever has the stove while its keeper takes no part is fine."""
    problem = asked_alone(
        world("strip-c1 c1-strip", people=(person("m1"), person("m2")), gear=(STOVE,)),
        RULE,
    )
    alone = replace(problem, gear=(replace(STOVE, keeper_id="nobody-here"),))
    plan = plan_of(alone, {"m2": "stove"}, {"m2": "stove"})
    assert remarked(alone, plan, RULE) == ()
