"""Every gram of every plan, followed from the start to the end by a replay of its own."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Problem
from tests.pipeline.conservation import imbalances
from tests.pipeline.tiny_worlds import tiny_world

STEADY = Limits(wall_seconds=60.0, workers=1, seed=1)


@settings(max_examples=60)
@given(st.integers(min_value=10_000, max_value=1_000_000))
def test_every_gram_adds_up_at_every_moment(seed: int) -> None:
    """What leaves a place stood there, and what is gone in the morning was eaten or burnt."""
    problem = tiny_world(seed)
    outcome = plan(problem, STEADY)
    if isinstance(outcome, Solved):
        assert imbalances(problem, outcome.plan) == []


def solved_world() -> tuple[Problem, Plan]:
    """A world with food, fuel and sacks, and its plan."""
    for seed in range(200):
        problem = tiny_world(seed)
        outcome = plan(problem, STEADY)
        if isinstance(outcome, Solved):
            ids = {unit.unit_id for entry in outcome.plan.stock for unit in entry.units}
            kinds = ("trash/", "human-waste/", "g1/can/open")
            if all(any(unit_id.startswith(kind) for unit_id in ids) for kind in kinds):
                return problem, outcome.plan
    raise AssertionError("no world of the first 200 has a plan with fuel and sacks")


def test_a_gram_too_many_is_seen_in_every_stock() -> None:
    """One gram more on any unit of any night's stock is told, so the replay can fail."""
    problem, whole = solved_world()
    assert imbalances(problem, whole) == []
    for index, entry in enumerate(whole.stock):
        for at, unit in enumerate(entry.units):
            if unit.unit_id.startswith(("trash", "human-waste", "g1")) and entry.day not in (
                0,
                len(problem.calendar.days),
            ):
                units = list(entry.units)
                units[at] = replace(unit, mass_g=unit.mass_g + 1)
                stock = list(whole.stock)
                stock[index] = replace(entry, units=tuple(units))
                assert imbalances(problem, replace(whole, stock=tuple(stock))), unit.unit_id


def test_a_unit_left_out_of_a_load_is_seen() -> None:
    """A load that loses any of its units leaves a store that does not add up."""
    problem, whole = solved_world()
    for index, trip in enumerate(whole.trips):
        for at, load in enumerate(trip.loads):
            for gone in load.pack:
                loads = list(trip.loads)
                loads[at] = replace(load, pack=tuple(u for u in load.pack if u != gone))
                trips = list(whole.trips)
                trips[index] = replace(trip, loads=tuple(loads))
                assert imbalances(problem, replace(whole, trips=tuple(trips))), gone.unit_id
