"""Fuel survives loss: the checker with just enough fuel in the other pack, and 1 mL less."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup, Problem
from tests.rules.worlds import MEAL, Case, found, glacier, person, plan_of, world

RULE = "fuel_survives_loss"
TWO = (person("m1"), person("m2"))
HOT = replace(MEAL, fuel_ml=100)
STOCKED = "strip-c1 c1 c1 c1-strip"
LONG = "strip-c1 c1 c1 c1 c1-strip"


def _world(content_ml, *, cans, days=STOCKED, **numbers) -> Problem:
    """Two people who burn 200 mL a night, with some cans to start from."""
    can = Container("can", "g1", content_ml, tare_g=100, volume_ml=500, count=cans)
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (can,)),)
    problem = world(days, people=TWO, groups=groups, night_sets=(HOT,))
    return glacier(problem, RULE, **numbers)


def _case(name, problem, first, second, *over, solvable=True):
    """All the fuel goes up on day 1; what stands of it comes down on the last day."""
    nights = len(problem.calendar.days) - 1
    content = problem.cook_groups[0].containers[0].content_ml
    cans = problem.cook_groups[0].containers[0].count
    used, left = divmod(200 * nights, content)
    opened = used + bool(left)
    down = ["g1/can"] * (cans - opened)
    down += [f"g1/can/open-{opened}"] if left else []
    down += [f"g1/can/empty-{n}" for n in range(1, used + 1)]
    weights = {(f"g1/can/empty-{n}", nights + 1): (100, 500) for n in range(1, used + 1)}
    # 0.7 g a millilitre, to the nearest gram.
    open_g = 100 + ((content - left) * 700 + 500) // 1000
    weights[f"g1/can/open-{opened}", nights + 1] = open_g, 500
    plan = plan_of(
        problem,
        {"m1": f"g1/can*{first} g1/meal*{2 * nights}", "m2": f"g1/can*{second}"},
        {"m1": _units(down[::2]), "m2": _units(down[1::2])},
        weights=weights,
    )
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


def _units(words):
    return " ".join(f"{unit}*{words.count(unit)}" for unit in dict.fromkeys(words))


CASES = (
    _case("600 mL in each pack", _world(300, cans=4), 2, 2),
    _case("598 mL in each pack", _world(299, cans=4), 2, 2, 2, solvable=False),
    _case("599 mL in each pack", _world(599, cans=2), 1, 1, 1, solvable=False),
    # Three nights of four, and the trip home, after which none comes.
    _case("72 hours of four nights", _world(300, cans=4, days=LONG), 2, 2),
    _case(
        "73 hours", _world(300, cans=4, days=LONG, loss_fuel_hours=73), 2, 2, 200, solvable=False
    ),
    # With two cans left at the strip the same five would do.
    _case("49 hours", _world(200, cans=5, loss_fuel_hours=49), 3, 2, 200),
    _case("48 hours", _world(200, cans=5, loss_fuel_hours=48), 3, 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_left_lasts_whichever_pack_is_lost(case):
    """Fuel within reach, less that in any one pack, lasts 72 hours or until the last night."""
    assert found(case.problem, case.plan) == case.finds
