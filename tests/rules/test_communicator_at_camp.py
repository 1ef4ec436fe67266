"""Communicator at camp: the checker with one at camp, one worn there, and one left behind."""

import pytest

from solver.problem import Need, NeedKind, Purpose
from tests.rules.worlds import Case, found, glacier, item, plan_of, world

RULE = "communicator_at_camp"
LATER = Need(NeedKind.EVERY_NIGHT, from_place="c2", may_go_ahead=True)
"""Of use only beyond c1, so that no other rule asks where it is."""
WORN = Need(NeedKind.WORN)


def _radio(name="radio", need=LATER, **more):
    return item(name, need, purpose=Purpose.COMMUNICATOR, **more)


def _case(name, gear, kit, *over):
    problem = glacier(world("strip-c1 c1-c2-c1-strip", gear=gear), RULE)
    plan = plan_of(problem, {"m1": f"{kit} g1/meal"}, {}, {}, {"m1": kit})
    return Case(name, problem, plan, tuple((RULE, n) for n in over))


BY_M1 = _radio("beacon", WORN, owner_id="m1")
CASES = (
    _case("at camp", (_radio(),), "radio"),
    _case("left at the start", (_radio(),), "", 1),
    _case("worn", (BY_M1,), ""),
    _case("of no purpose", (item("radio", LATER),), ""),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_somebody_at_each_camp_can_call_for_help(case):
    """A communicator is where people sleep, standing there or worn by one of them."""
    assert found(case.problem, case.plan) == case.finds
