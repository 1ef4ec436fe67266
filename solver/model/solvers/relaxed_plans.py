"""What the relaxation is asked for: a bound on the peak, then rides with low trips under it."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.formulation.flow_row import Rides
from solver.model.solvers.relaxation import (
    Relaxation,
    RelaxedPlan,
    is_impossible,
    solve_relaxation,
)
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID


@dataclass(frozen=True, slots=True)
class RelaxedPlans:
    """What came of it; `bound` is on the peak [1/10,000].

    `plan` is the one to pack, None where there was no time. `fair` is the plan with the least sum
    of the trips' fractions, whose bound holds for plans with a peak of at most `fair_up_to`.
    """

    bound: int = 0
    infeasible: bool = False
    plan: RelaxedPlan | None = None
    fair: RelaxedPlan | None = None
    fair_up_to: int = 0


def relaxed_plans(
    relaxation: Relaxation,
    limits: Limits,
    watch: Watch,
    *,
    start: Rides | None,
    peak: int | None,
) -> RelaxedPlans:
    """The least peak as a bound, then rides with the least fraction on every trip.

    `start` are the rides of a plan to begin from, `peak` that of the best plan so far. That there
    is no plan is only said where none is known.
    """
    if relaxation.impossible is not None:
        return RelaxedPlans(infeasible=True)
    first = solve_relaxation(
        relaxation,
        seconds=0.4 * watch.left(),
        gap=max(1e-5, 0.1 * limits.gap / FRACTION_GRID),
        sum_of_trips=False,
        peak_at_most=FRACTION_GRID,
        start=start,
    )
    if first is None:
        seconds = max(1.0, 0.3 * watch.left())
        infeasible = peak is None and is_impossible(relaxation, seconds=seconds)
        watch.finish_stage("relaxation", peak, 0)
        return RelaxedPlans(infeasible=infeasible)
    watch.finish_stage("relaxation", peak, first.bound)
    # No higher than need be: what is left up to the gap is for whole units.
    fair_up_to = max(first.trip_fractions, default=0)
    fair = solve_relaxation(
        relaxation,
        seconds=0.3 * watch.left(),
        gap=max(1e-4, 0.5 * limits.gap / FRACTION_GRID),
        sum_of_trips=True,
        peak_at_most=fair_up_to,
        start=first.rides,
    )
    watch.finish_stage("trip peaks", peak, first.bound)
    return RelaxedPlans(first.bound, plan=fair or first, fair=fair, fair_up_to=fair_up_to)
