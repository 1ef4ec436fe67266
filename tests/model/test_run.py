"""How much time a run gets, and by which clock."""

from __future__ import annotations

from solver.model.run import Run, bound_seconds, run_within
from solver.outcome import Limits
from solver.progress import Watch


def test_a_steady_run_counts_steps_and_has_one_worker() -> None:
    """A reproducible solve sets the deterministic limit, any other the wall's."""
    steady = run_within(Limits(workers=4, seed=3, reproducible=True), 2.0)
    assert steady == Run(2.0, workers=1, seed=3, steady=True)
    parameters = steady.solver().parameters
    assert parameters.max_deterministic_time == 2.0
    usual = run_within(Limits(workers=4, seed=3), 2.0).solver().parameters
    assert (usual.max_time_in_seconds, usual.num_workers, usual.random_seed) == (2.0, 4, 3)


def test_a_bounds_time_is_in_measure_with_what_the_search_took() -> None:
    """After 10 s a bound gets 0.5 s, after 1 s 0.2 s, and never more than its share of the rest."""
    for elapsed, share, seconds in ((10.0, 0.3, 0.5), (1.0, 0.3, 0.2), (19.5, 0.1, 0.05)):
        at = iter([0.0, elapsed, elapsed])
        watch = Watch(20.0, now=lambda at=at: next(at))
        watch.start()
        assert abs(bound_seconds(watch, share) - seconds) < 1e-9
