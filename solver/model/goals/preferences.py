"""The fourth goal: how many steered preferences a plan does not meet.

Which units ride on which trip does not change here, and each trip keeps its limit, so the goals
before are kept. There is no bound on how few there must be, but 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.equipment_moves import bar_and_repair
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.mixed_loads import mixed_loads
from solver.model.goals.named_keepers import away_from_keepers
from solver.model.goals.repair import repair
from solver.model.goals.soft_constraint import SoftConstraints, violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.streak_repair import break_streaks
from solver.model.goals.streaks import long_streaks
from solver.model.packing.held_trip import load_trip
from solver.model.work import Work, work_within
from solver.progress import Watch

_SHARE = 0.1
"""Of the time that a racing solve has taken, what this goal may take on top [1]."""

_STEADY_SHARE = 0.5
"""Of a steady stage's work, what this goal may take [1]."""


def value(frame: Frame, draft: Draft) -> int:
    """How many of the steered preferences a draft does not meet [1]."""
    return count_violated(frame, draft, soft_constraints(frame))


def bound(_: SearchState) -> int | None:
    """Nothing is proven beyond that there are no fewer than none [1]."""
    return 0


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Repair the loads of each trip under its limit, then break up streaks that are too long."""
    draft = meet_more(
        tools.frame,
        state.draft,
        soft_constraints(tools.frame),
        limits=state.trip_limits,
        watch=tools.watch,
    )
    return replace(state, draft=draft)


def count_violated(frame: Frame, draft: Draft, constraints: SoftConstraints) -> int:
    """Soft constraints that a draft violates on any trip, and its streaks that are too long [1]."""
    held = by_trip(frame, draft)
    on_trips = sum(
        violated(frame, trip, held[trip], of_trip)
        + mixed_loads(frame, held[trip])
        + away_from_keepers(frame, trip, held[trip])
        for trip, of_trip in enumerate(constraints)
    )
    return on_trips + len(long_streaks(frame, draft))


def meet_more(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    *,
    limits: Sequence[int],
    watch: Watch,
) -> Draft:
    """A draft that meets more preferences, its trips under their limits [1/10,000]."""
    work = work_within(watch, steady_share=_STEADY_SHARE, racing_share=_SHARE)
    repaired = _repair_trips(frame, draft, constraints, limits, work)
    better = break_streaks(frame, repaired, constraints, limits, work)
    before, after = (count_violated(frame, one, constraints) for one in (draft, better))
    return better if after < before else draft


def _repair_trips(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
) -> Draft:
    """Each trip with fewer violated constraints, those with the fewest units first."""
    held = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    trips = [trip for trip, of_trip in enumerate(constraints) if of_trip]
    number = {trip: violated(frame, trip, held[trip], constraints[trip]) for trip in trips}
    for trip in sorted(trips, key=lambda trip: (len(held[trip]), trip)):
        if work.is_over():
            break
        before, of_trip = number[trip], constraints[trip]
        if before == 0:
            continue
        load = load_trip(frame, trip, held[trip], slack[trip])
        fewest = repair(load, of_trip, limit=limits[trip], work=work)
        if fewest < before:
            held[trip] = load.held()
        if any(one.equipment and violated(frame, trip, held[trip], [one]) for one in of_trip):
            load = load_trip(frame, trip, held[trip], slack[trip])
            if bar_and_repair(load, of_trip, limits[trip], work) < min(fewest, before):
                held[trip] = load.held()
    return join(held)
