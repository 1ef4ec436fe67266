"""How much time a run gets, and by which clock."""

from __future__ import annotations

import time

from ortools.sat.python import cp_model

from solver.model.run import STEADY_WORK, Run, bound_seconds, run_within
from solver.outcome import Limits
from solver.progress import Watch


def test_a_steady_run_counts_steps_and_has_one_worker() -> None:
    """A solve sets a limit in CP-SAT's own measure, a racing one the wall's."""
    steady = run_within(Limits(workers=4, seed=3), 2.0)
    assert steady == Run(2.0, workers=1, seed=3, steady=True)
    parameters = steady.solver().parameters
    assert parameters.max_deterministic_time == 2.0 * STEADY_WORK
    usual = run_within(Limits(workers=4, seed=3, racing=True), 2.0).solver().parameters
    assert (usual.max_time_in_seconds, usual.num_workers, usual.random_seed) == (2.0, 4, 3)


def test_a_bounds_time_is_in_measure_with_what_the_search_took() -> None:
    """After 10 s a bound gets 0.5 s, after 1 s 0.2 s, and never more than its share of the rest."""
    for elapsed, share, seconds in ((10.0, 0.3, 0.5), (1.0, 0.3, 0.2), (19.5, 0.1, 0.05)):
        at = iter([0.0, elapsed, elapsed])
        watch = Watch(20.0, now=lambda at=at: next(at))
        watch.start()
        assert abs(bound_seconds(watch, share) - seconds) < 1e-9


def test_a_run_of_cp_sat_ends_half_a_second_after_a_stop() -> None:
    """Forty pigeons for thirty-nine holes take minutes; a stop that comes after 0.3 s ends them."""
    model = cp_model.CpModel()
    holes = [[model.new_bool_var("") for _ in range(39)] for _ in range(40)]
    for pigeon in holes:
        model.add(sum(pigeon) == 1)
    for hole in zip(*holes, strict=True):
        for one in range(40):
            for other in range(one):
                model.add(hole[one] + hole[other] <= 1)
    begun = time.monotonic()
    watch = Watch(600.0, now=time.monotonic, wish_to_stop=lambda: time.monotonic() > begun + 0.3)
    solver = run_within(Limits(), 600.0, watch).solver()
    solver.parameters.cp_model_presolve = False
    solver.parameters.linearization_level = 0
    assert solver.solve(model) == cp_model.UNKNOWN
    assert time.monotonic() - begun < 0.8
