"""A trial: a plan that the check passes, none, or nothing in time."""

from __future__ import annotations

from dataclasses import replace

from solver.checker import check
from solver.problem import Calendar
from solver.progress import Watch
from solver.questions.trial import try_problem
from tests.questions.worlds import LIMITS, own_kits, shared, watch


def test_a_trial_brings_a_plan_that_passes_the_check():
    """What is found has no findings."""
    problem = shared(12_000)
    tried = try_problem(problem, LIMITS, watch())
    assert tried.solvable
    assert tried.plan is not None
    assert check(problem, tried.plan).findings == ()


def test_a_trial_says_no_of_too_heavy_kits_and_of_faulty_problems():
    """Neither a proof nor a fault leaves a doubt."""
    assert try_problem(own_kits(11_500), LIMITS, watch()).solvable is False
    problem = own_kits(5_000)
    faulty = replace(problem, calendar=Calendar(problem.calendar.days[1:]))
    assert try_problem(faulty, LIMITS, watch()).solvable is False


def test_a_trial_without_time_says_neither():
    """Where the clock has run out there is no answer, unless the greedy plan is one."""
    times = iter(range(0, 10**6, 5))
    over = Watch(1.0, now=lambda: float(next(times)))
    over.start()
    assert try_problem(shared(19_000), LIMITS, over).solvable in (None, True)
