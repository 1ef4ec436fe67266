"""What stands where at a moment, and what of a check lies in the past."""

from dataclasses import replace

from solver.checker import check, check_request
from solver.checker.standing import standing_at_moment
from solver.problem import Change, History
from tests.rules.worlds import plan_of, world

DAYS = "strip-c1 c1-strip-c1 c1-strip"


def _stands(history, *loads):
    problem = replace(world(DAYS), history=history)
    plan = plan_of(problem, *loads, stock={(0, "strip"): "g1/meal*3"})
    found = standing_at_moment(check_request(problem).facts, plan)
    return {(s.place_id, s.unit_id): s.count for s in found}


LOADS = ({"m1": "g1/meal*2"}, {}, {"m1": "g1/meal"}, {})


def test_trips_and_nights_count_up_to_the_moment():
    """Two sets go up on day 1, one is eaten that night, the third goes up on day 2."""
    assert _stands(History(1), *LOADS) == {("strip", "g1/meal"): 1, ("c1", "g1/meal"): 2}
    after = _stands(History(1, after_night=True), *LOADS)
    assert after == {("strip", "g1/meal"): 1, ("c1", "g1/meal"): 1}
    assert _stands(History(2), *LOADS) == {("c1", "g1/meal"): 2}


def test_a_rest_day_ends_where_it_began():
    """The evening of a day without travel comes after the night before."""
    problem = replace(world("strip-c1 c1 c1-strip"), history=History(2))
    plan = plan_of(problem, {"m1": "g1/meal*2"}, {}, stock={(0, "strip"): "g1/meal*2"})
    (stands,) = standing_at_moment(check_request(problem).facts, plan)
    assert (stands.place_id, stands.count) == ("c1", 1)


def test_without_a_history_nothing_is_said():
    """Before the start everything stands at the start anyway."""
    assert _stands(None, *LOADS) == {}


def test_the_past_is_not_judged():
    """A set too few on night 1 is found from the start, and not once that night is over."""
    problem = world(DAYS)
    plan = plan_of(problem, {}, {}, {"m1": "g1/meal"}, {}, stock={(0, "strip"): "g1/meal*3"})
    days = [dict(f.where).get("day") for f in check(problem, plan).findings]
    assert 1 in days
    over = replace(problem, history=History(1, after_night=True, changes=(Change("c1", "x", 0),)))
    assert 1 not in [dict(f.where).get("day") for f in check(over, plan).findings]
