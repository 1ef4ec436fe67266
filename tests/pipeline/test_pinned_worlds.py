"""Loads made by hand on tiny worlds: the least peak with them, against exhaustive search.

    HAULWRIGHT_PINNED=1100 pytest tests/pipeline/test_pinned_worlds.py

asks so many worlds; without it there are few.
"""

from __future__ import annotations

import os
from dataclasses import replace

from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.plan import Load, Stowed
from solver.problem import Pin
from tests.pipeline.exhaustive import least_peak
from tests.pipeline.pinned_worlds import pinned_world
from tests.pipeline.tiny_worlds import tiny_world

WORLDS = int(os.environ.get("HAULWRIGHT_PINNED", "40"))
LIMITS = Limits(wall_seconds=60.0, workers=1, seed=1)


def test_the_peak_with_pins_is_the_least_that_there_is() -> None:
    """Solved worlds have the proven least peak, and refused ones have no plan with their pins."""
    for seed in range(WORLDS):
        problem = pinned_world(seed)
        expected = least_peak(problem)
        outcome = plan(problem, LIMITS)
        if isinstance(outcome, Solved):
            assert (outcome.peak.value, outcome.peak.proven) == (expected, True), seed
        else:
            assert isinstance(outcome, Infeasible), seed
            assert expected is None, seed


def test_refusals_name_pins_wherever_pins_are_the_reason() -> None:
    """A world that has a plan without its pins is refused with pins, each with a rule."""
    for seed in range(WORLDS):
        outcome = plan(pinned_world(seed), LIMITS)
        if isinstance(outcome, Infeasible) and least_peak(tiny_world(seed)) is not None:
            assert all(dict(one.where).get("pin") for one in outcome.conflicts), seed


def _units(load: Load) -> list[tuple[Stowed, bool]]:
    return [(one, False) for one in load.pack] + [(one, True) for one in load.sled]


def test_a_plan_pinned_whole_is_found_again() -> None:
    """With every load of a plan pinned, open and empty containers and sacks too, it is the plan."""
    for seed in range(WORLDS // 2):
        free = plan(tiny_world(seed), LIMITS)
        if not isinstance(free, Solved):
            continue
        pins = tuple(
            Pin(one.unit_id, trip.day, trip.step, load.person_id, on_sled, one.count)
            for trip in free.plan.trips
            for load in trip.loads
            for one, on_sled in _units(load)
        )
        held = plan(replace(tiny_world(seed), pins=pins), LIMITS)
        assert isinstance(held, Solved), seed
        assert held.plan.trips == free.plan.trips, seed
