"""Pack volume held: the checker at, above and below what fits in and on a pack."""

import pytest

from solver.problem import Problem, RuleSettings
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(kit_ml: int, *, allowance_percent: int = 10, outside: bool = False) -> Problem:
    """One item and water on one person whose pack holds 9.999 L."""
    return world(
        people=(person(pack_volume_ml=9_999, water_g=2_000),),
        gear=(item("kit", volume_ml=kit_ml, outside=outside),),
        rules=RuleSettings(pack_volume_allowance_percent=allowance_percent),
    )


def _case(name: str, problem: Problem, over_ml: int = 0) -> Case:
    plan = plan_of(problem, {"m1": "kit"}, {"m1": "kit"})
    finds = (("pack_volume_held", over_ml),) * (2 if over_ml else 0)
    return Case(name, problem, plan, finds, solvable=not over_ml)


CASES = (
    _case("below", _world(10_997)),
    _case("at, rounded down", _world(10_998)),
    _case("above", _world(10_999), 1),
    _case("at without allowance", _world(9_999, allowance_percent=0)),
    _case("above without allowance", _world(10_000, allowance_percent=0), 1),
    _case("lashed outside", _world(50_000, outside=True)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_pack_takes_its_volume_and_the_outside_allowance_rounded_down(case):
    """9.999 L and a tenth is 10.998 L; water takes none of it and neither does outside kit."""
    assert found(case.problem, case.plan) == case.finds
