"""Party kit carried: shared items of every trip with the party, or not."""

import pytest

from solver.problem import Need, NeedKind
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "party_kit_carried"

TWO = (person("m1"), person("m2"))
WORLD = world(people=TWO, gear=(item("rope", count=2),))
UP_TO_C1 = world(
    "strip-c1-c2-c1-strip", gear=(item("probe", Need(NeedKind.EVERY_TRIP, up_to="c1")),)
)


def _case(name: str, problem, *trips: dict[str, str], finds=()) -> Case:
    return Case(name, problem, plan_of(problem, *trips), finds)


CASES = (
    _case("anybody carries", WORLD, {"m1": "rope", "m2": "rope"}, {"m2": "rope*2"}),
    _case("one of two left", WORLD, {"m1": "rope"}, {"m2": "rope"}, finds=((RULE, 1), (RULE, 1))),
    _case("all left", WORLD, {}, {}, finds=((RULE, 2), (RULE, 2))),
    _case("waits at its last place", UP_TO_C1, {"m1": "probe"}, {}, {}, {"m1": "probe"}),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_party_kit_rides_each_trip_in_its_range(case):
    """Party kit rides with anybody of the party on each trip between its places."""
    assert found(case.problem, case.plan) == case.finds


def test_each_rope_team_has_its_own():
    """A rope team that goes alone must have its own rope; the other team's is no matter."""
    people = (person("m1"), person("m2", rope_team_id="r2", cook_group_id="g1"))
    gear = (item("rope-1", rope_team_id="r1"), item("rope-2", rope_team_id="r2"))
    problem = world("strip-c1-strip|strip-c1-strip", people=people, gear=gear)
    right = plan_of(problem, {"m1": "rope-1"}, {"m2": "rope-2"}, {"m1": "rope-1"}, {"m2": "rope-2"})
    wrong = plan_of(problem, {"m1": "rope-1 rope-2"}, {}, {"m1": "rope-1 rope-2"}, {})
    assert found(problem, right) == ()
    assert found(problem, wrong) == ((RULE, 1), (RULE, 1))
