"""What a plan and a count make of a problem."""

from dataclasses import replace

from solver.problem import Change, History
from solver.rest.counted import with_counts, with_lost_fuel_burnt, with_standing, without_lost_items
from tests.rest.under_way import at, followed
from tests.rules.worlds import item, plan_of, world

DAYS = "strip-c1 c1 c1-strip"


def _world():
    return world(DAYS, gear=(item("rope", count=2),))


def _loads(problem):
    taken = {(0, "strip"): "rope*2 g1/meal*2"}
    return plan_of(problem, {"m1": "rope*2 g1/meal*2"}, {"m1": "rope*2"}, stock=taken)


def test_what_rode_stands_where_it_went():
    """After day 1 ropes and sets stand at c1; after its night one set is eaten."""
    problem = _world()
    plan = _loads(problem)
    for after_night, sets in ((False, 2), (True, 1)):
        counted = with_standing(
            with_counts(at(problem, History(1, after_night)), plan), plan
        ).history
        assert counted is not None
        stands = {(s.place_id, s.unit_id): s.count for s in counted.standing}
        assert stands["c1", "rope"] == 2
        assert stands["c1", "g1/meal"] == sets


def test_a_count_changes_what_stands():
    """A set found missing at c1 stands there no more, one found at the strip does."""
    problem = _world()
    plan = _loads(problem)
    changes = (Change("c1", "g1/meal", -1), Change("strip", "rope", 1), Change("c1", "rope", -1))
    history = with_standing(with_counts(at(problem, History(1), *changes), plan), plan).history
    assert history is not None
    stands = {(s.place_id, s.unit_id): s.count for s in history.standing}
    assert stands["c1", "g1/meal"] == 1
    assert (stands["c1", "rope"], stands["strip", "rope"]) == (1, 1)


def test_lost_gear_is_left_out_and_moved_gear_is_not():
    """A rope that is gone is one fewer; one that was found elsewhere is not."""
    problem = _world()
    gone = without_lost_items(at(problem, History(1), Change("c1", "rope", -1)))
    assert [i.count for i in gone.gear] == [1]
    both = without_lost_items(at(problem, History(1), Change("c1", "rope", -2)))
    assert both.gear == ()
    moved = (Change("c1", "rope", -1), Change("strip", "rope", 1))
    assert without_lost_items(at(problem, History(1), *moved)).gear == problem.gear
    assert without_lost_items(problem) == problem


def test_as_many_are_taken_as_the_plan_took():
    """Counts that the request leaves open are those of the plan's first stock."""
    drawn = followed("tiny", 0) or followed("tiny", 1)
    assert drawn is not None
    problem, plan = drawn
    taken = {u.unit_id: u.count for e in plan.stock if e.day == 0 for u in e.units}
    fixed = with_counts(problem, plan)
    assert all(one.bag_count == taken.get(one.unit_id, 0) for one in fixed.night_sets)


def test_a_lost_open_container_counts_as_burnt():
    """What was in it is burnt, and the empty one that the ledger makes of it is lost."""
    for seed in range(60):
        drawn = followed("tiny", seed)
        if drawn is None:
            continue
        problem, plan = drawn
        for day in range(1, len(problem.calendar.days)):
            history = History(day, after_night=True)
            counted = with_standing(with_counts(at(problem, history), plan), plan).history
            assert counted is not None
            opened = [s for s in counted.standing if "/open-" in s.unit_id]
            if opened:
                lost = Change(opened[0].place_id, opened[0].unit_id, -1)
                burnt = with_lost_fuel_burnt(with_counts(at(problem, history, lost), plan)).history
                assert burnt is not None
                assert sum(ml for _, ml in burnt.burnt_ml) > 0
                assert [c.unit_id for c in burnt.changes] == [
                    lost.unit_id.replace("/open-", "/empty-")
                ]
                return
    raise AssertionError("no drawn world has an open container")


def test_without_a_history_nothing_changes():
    """A problem that has not begun is left alone."""
    problem = replace(_world(), history=None)
    assert with_standing(problem, _loads(problem)) == problem
    assert with_lost_fuel_burnt(problem) == problem
