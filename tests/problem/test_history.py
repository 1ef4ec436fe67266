"""What a history says of itself, and what can be wrong with it."""

from dataclasses import replace

from solver.problem import Change, History
from solver.problem.fault_checks.history import history_faults
from solver.problem.history import Standing
from tests.problem.small_world import small_world


def test_nights_that_are_over():
    """In the evening of day 3 two nights are over, after its night three."""
    assert History(3).nights == 2
    assert History(3, after_night=True).nights == 3


def test_what_was_moved_is_not_lost():
    """Two gone at one place and one found at another: one is lost; more found is no loss."""
    changes = (Change("a", "x", -2), Change("b", "x", 1), Change("a", "y", 1))
    history = History(1, changes=changes, burnt_ml=(("g", 20), ("h", 5), ("g", 1)))
    assert (history.lost("x"), history.lost("y"), history.lost("z")) == (1, 0, 0)
    assert (history.more_burnt_ml("g"), history.more_burnt_ml("none")) == (21, 0)
    assert history.standing == ()
    assert Standing("a", "x", 1).count == 1


def test_faults_name_their_place():
    """A day outside the calendar, a place and a cook group that nothing defines."""
    problem = small_world()
    history = History(99, changes=(Change("moon", "x", 1),), burnt_ml=(("nobody", 1),))
    found = list(history_faults(replace(problem, history=history)))
    assert [(fault.where, fault.code) for fault in found] == [
        (("history", "day"), "out_of_range"),
        (("history", "changes", 0, "place_id"), "unknown_id"),
        (("history", "burnt_ml", 0), "unknown_id"),
    ]
    assert list(history_faults(problem)) == []
