"""Water on the day of a summit: the checker weighs what is carried then, on each of its trips."""

from dataclasses import replace

from solver.checker import check
from solver.problem import PlaceKind
from tests.rules.worlds import person, plan_of, world

RULE = "pack_cap_held"


def _world(pack_g, summit_water_g):
    """Day 2 goes to the summit c2 and home; caps are for water alone."""
    who = replace(person(pack_g=pack_g, water_g=1_000), summit_water_g=summit_water_g)
    problem = world("strip-c1 c1-c2-c1-strip", people=(who,))
    places = [
        replace(p, kind=PlaceKind.SUMMIT) if p.place_id == "c2" else p for p in problem.route.places
    ]
    return replace(problem, route=replace(problem.route, places=tuple(places)))


def _over(problem):
    findings = check(problem, plan_of(problem, {"m1": "g1/meal"}, {}, {}, {})).findings
    assert {f.rule_id for f in findings} <= {RULE}
    return [(dict(f.where)["day"], f.amount) for f in findings]


def test_summit_water_rides_each_trip_of_the_summit_day():
    """With a cap of 2999 g the 3000 g of day 2 are 1 g over on its three trips, not on day 1."""
    assert _over(_world(2_999, 3_000)) == [(2, 1)] * 3
    assert _over(_world(3_000, 3_000)) == []


def test_without_summit_water_the_usual_is_carried():
    """A person who says nothing of summits carries 1000 g on every trip."""
    assert _over(_world(1_010, None)) == []
    assert _over(_world(999, None)) == [(1, 11), (2, 1), (2, 1), (2, 1)]
