"""One question to the relaxation: what one solve may use, and what it costs."""

from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxation_question import (
    FEWEST_NODES,
    STEADY_ITERATIONS,
    costs_of,
    effort_of,
)
from tests.model.frames import box, two_with

FRAME = two_with(box("tent", 6_000))


def test_a_steady_relaxation_counts_steps_and_another_seconds():
    """Steps bound a steady solve, at least a few nodes; without it only the seconds do."""
    steady = effort_of(build_relaxation(FRAME, steady=True), 3.0)
    assert steady.steps is not None
    assert steady.steps[0] == STEADY_ITERATIONS
    assert steady.steps[1] >= FEWEST_NODES
    timed = effort_of(build_relaxation(FRAME), 3.0)
    assert (timed.seconds, timed.steps) == (3.0, None)


def test_costs_are_one_for_the_columns_named():
    """Two columns cost 1 each and all others nothing."""
    costs = costs_of(build_relaxation(FRAME), [0, 2])
    assert costs[[0, 2]].tolist() == [1.0, 1.0]
    assert costs.sum() == 2.0
