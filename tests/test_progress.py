"""Two wishes end a solve: one at once, the other as soon as there is an answer."""

from solver.progress import Watch


def test_a_wish_to_finish_is_heard_from_the_first_plan_on() -> None:
    """Before it all the time is left, though the wish is there; another start begins anew."""
    watch = Watch(10.0, wish_to_finish=lambda: True)
    watch.start()
    watch.finish_stage("greedy", None, 0)
    assert not watch.should_stop()
    assert watch.left() == 10.0
    watch.finish_stage("packing", 9_000, 0)
    assert watch.should_stop()
    assert watch.is_over()
    watch.finish_stage("flights", None, 0)
    assert watch.should_stop()
    watch.start()
    assert watch.left() == 10.0


def test_a_wish_to_stop_is_heard_at_once() -> None:
    """Plan or none, nothing is left, and that is not the clock's doing."""
    watch = Watch(10.0, wish_to_stop=lambda: True)
    watch.start()
    assert watch.should_stop()
    assert watch.left() == 0.0
    assert not watch.clock_ended


def test_the_time_ends_a_solve_whatever_is_wished() -> None:
    """Where no plan is found, a wish to finish does not make it last."""
    watch = Watch(10.0, now=iter([0.0, 10.0]).__next__, wish_to_finish=lambda: True)
    watch.start()
    assert watch.is_over()
    assert watch.clock_ended
