"""What a diagnosis costs beside a plan, on a seeded expedition of a size that people go in."""

from __future__ import annotations

import pytest

from solver.outcome import Infeasible
from tests.questions.why_not.larger_worlds import timed


@pytest.mark.slow
def test_why_there_is_no_plan_takes_at_most_twice_as_long_as_a_plan():
    """In CPU time, for a small expedition with caps that are too small for the whole party."""
    one = timed("small", 1)
    assert one.is_twin_solved
    assert isinstance(one.refusal, Infeasible)
    told = one.refusal.diagnosis
    assert told is not None
    assert told.remedies
    assert told.tried >= len(told.remedies)
    assert one.ratio <= 2.0
