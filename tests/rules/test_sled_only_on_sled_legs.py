"""Sled only on sled legs: sleds hauled where they can be, where they cannot, and not at all."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.plan import Plan
from solver.problem import Problem, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "sled_only_on_sled_legs"

WORLD: Problem = world(
    "strip-c1-c2-c1-strip",
    people=(person("m1", sled_g=20_000), person("m2", sled_g=20_000)),
    gear=(item("kit"),),
    sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=90_000),),
    sled_leg_factors=(100, 100),
)
"""A sled leg and a pack leg, out and back: the sled waits at c1."""

RIGHT: Plan = plan_of(WORLD, {"m1": "| kit"}, {"m1": "kit"}, {"m1": "kit"}, {"m1": "| kit"})


def _with_load(trip: int, row: int, **changes) -> Plan:
    """The right plan with one load changed."""
    loads = list(RIGHT.trips[trip].loads)
    loads[row] = replace(loads[row], **changes)
    trips = list(RIGHT.trips)
    trips[trip] = replace(trips[trip], loads=tuple(loads))
    return replace(RIGHT, trips=tuple(trips))


KIT = RIGHT.trips[0].loads[0].sled

CASES = (
    Case("on the sled leg", WORLD, RIGHT),
    Case("on the pack leg", WORLD, _with_load(1, 0, pack=(), sled=KIT, sled_id="s1"), ((RULE, 1),)),
    Case("hauled empty on the pack leg", WORLD, _with_load(1, 0, sled_id="s1"), ((RULE, 1),)),
    Case(
        "left at the start", WORLD, _with_load(0, 0, pack=KIT, sled=(), sled_id=None), ((RULE, 1),)
    ),
    Case("without its name", WORLD, _with_load(0, 0, sled_id=None), ((RULE, 1),)),
    Case("somebody else's", WORLD, _with_load(0, 1, sled_id="s1"), ((RULE, 1),)),
    Case("one that nobody has", WORLD, _with_load(0, 0, sled_id="s9"), ((RULE, 1),)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_goes_with_its_hauler_on_sled_legs_and_nowhere_else(case):
    """A sled on a pack leg, with a stranger, or left on its own leg is told, and nothing more."""
    assert found(case.problem, case.plan) == case.finds


def test_a_sled_that_somebody_else_hauls_is_told_with_its_owner():
    """The finding says whose sled it is, and that each sled has its own hauler."""
    (message,) = [f.message for f in check(WORLD, _with_load(0, 1, sled_id="s1")).findings]
    assert message.endswith("sled s1 is m1's: each sled has its own hauler in the request")
