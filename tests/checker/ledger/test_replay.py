"""Replay: what rides on each trip and what stands where at each time."""

from solver.checker.ledger.replay import AS_MANY_AS_NEEDED, events_of
from solver.checker.ledger.times import START, after_night, end_of
from tests.checker.replaying import NIGHT_OUT, burning, replay_of
from tests.rules.worlds import item, world


def test_units_go_where_they_are_carried_and_no_further():
    """A rope that goes up and stays is at the camp at the end, one unit of two at the strip."""
    problem = world(NIGHT_OUT, gear=(item("rope", count=2),))
    course = replay_of(problem, {"m1": "rope"}, {}).courses["rope"]
    timeline = replay_of(problem, {}, {}).facts.timeline
    assert course.at(START) == {"strip": 2}
    assert course.at(end_of(timeline)) == {"strip": 1, "c1": 1}


def test_a_night_takes_its_food_and_leaves_the_empty_can():
    """After the night the meal is gone and the can is open; what is carried down is empty."""
    replayed = replay_of(burning(150), {"m1": "g1/meal g1/can"}, {"m1": "g1/can/empty-1"})
    after = after_night(replayed.facts.timeline.nights[0])
    assert replayed.courses["g1/meal"].at(after).get("c1", 0) == 0
    assert replayed.courses["g1/can"].at(after).get("c1", 0) == 0
    assert replayed.courses["g1/can/empty-1"].at(after) == {"strip": 0, "c1": 1}
    assert replayed.courses["g1/can/empty-1"].at(end_of(replayed.facts.timeline))["strip"] == 1


def test_how_many_bags_are_taken_is_the_plans_to_say():
    """Where the problem gives no count it is that of the plan's first stock, else any number."""
    problem = world(NIGHT_OUT)
    told = replay_of(problem, {"m1": "g1/meal"}, {}, stock={(0, "strip"): "g1/meal*3"})
    assert told.courses["g1/meal"].at(START) == {"strip": 3}
    silent = replay_of(problem, {"m1": "g1/meal"}, {})
    assert silent.courses["g1/meal"].at(START) == {"strip": AS_MANY_AS_NEEDED}


def test_what_is_gathered_for_all_units_is_what_is_asked_of_one():
    """Each unit's course follows its own nights and trips in order of time, and nobody else's."""
    replayed = replay_of(burning(150), {"m1": "g1/meal g1/can"}, {"m1": "g1/can/empty-1"})
    for unit_id, course in replayed.courses.items():
        events = events_of(replayed.facts, replayed.records, unit_id)
        assert events == sorted(events, key=lambda event: event.time)
        assert set(course.times) == {START, *(event.time for event in events)}
    legs = [(e.place_id, e.change) for e in events_of(replayed.facts, replayed.records, "g1/meal")]
    assert legs == [("strip", -1), ("c1", 1), ("c1", -1)]
