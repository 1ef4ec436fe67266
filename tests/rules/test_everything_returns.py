"""Everything returns: units left on the mountain, of every kind that must come down."""

import pytest

from solver.problem import Container, CookGroup, NightSet, Waste
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, plan_of, world

RULE = "everything_returns"

WORLD = world(
    "strip-c1 c1-strip",
    gear=(item("tent", EVERY_NIGHT, count=2),),
    groups=(CookGroup("g1", (("c1", "meal"),), (Container("can", "g1", 100, 50, 200),)),),
    night_sets=(NightSet("meal", "g1", 700, 50, 100, 2_000, 100),),
    waste=Waste(waste_g_per_person_night=170),
)
"""One night that leaves an empty can, 50 g of packaging at 5 mL/g and 170 g of waste at 2."""

WEIGHTS = {
    ("g1/can/empty-1", 2): (50, 200),
    ("trash/c1/1-1", 2): (50, 250),
    ("human-waste/c1/1-1", 2): (170, 340),
}
LEFT_BEHIND = ["tent*2", "g1/can/empty-1", "trash/c1/1-1", "human-waste/c1/1-1", "g1/meal"]


def _case(name: str, down: list[str], *over: int) -> Case:
    plan = plan_of(
        WORLD,
        {"m1": "tent*2 g1/can g1/meal*2"},
        {"m1": " ".join(down)},
        weights=WEIGHTS,
        lunches={2: 100},
    )
    return Case(name, WORLD, plan, tuple((RULE, n) for n in over))


CASES = (
    _case("all down", LEFT_BEHIND),
    _case("tents left", LEFT_BEHIND[1:], 2),
    _case("one tent left", ["tent", *LEFT_BEHIND[1:]], 1),
    _case("an empty can left", [LEFT_BEHIND[0], *LEFT_BEHIND[2:]], 1),
    _case("trash left", [*LEFT_BEHIND[:2], *LEFT_BEHIND[3:]], 1),
    _case("waste left", [*LEFT_BEHIND[:3], LEFT_BEHIND[4]], 1),
    _case("spare food left", LEFT_BEHIND[:4], 1),
    _case("all left", [], 2, 1, 1, 1, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_everything_that_is_not_used_up_comes_back(case):
    """Gear, spare food, empty containers, trash and waste are all back at the end, or told."""
    assert found(case.problem, case.plan) == case.finds
