"""What the relaxation is asked for: a bound on the peak, then rides with low trips under it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.formulation.flow_row import Rides
from solver.model.solvers.relaxation import (
    Relaxation,
    RelaxedPlan,
    least_peak_bound,
    solve_relaxation,
)
from solver.model.solvers.relaxation_refusals import is_impossible
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

_PEAK_SHARE, _FAIR_SHARE = 0.4, 0.3
"""Which parts of the time left the bound on the peak and the plan to pack may take [1]."""


@dataclass(frozen=True, slots=True)
class RelaxedPlans:
    """What came of it; `bound` is on the peak [1/10,000].

    `plan` is the one to pack, None where there was no time. `fair` is the one with few hard trips
    among those with a peak of at most `fair_up_to`.
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
    """A bound on the peak, then rides with low trips and, where possible, no higher peak.

    `start` are the rides of a plan to begin from, `peak` that of the best plan so far. That there
    is no plan is only said where none is known.
    """
    if relaxation.impossible is not None:
        return RelaxedPlans(infeasible=True)
    if peak is not None and watch.should_stop():
        return RelaxedPlans()
    bound = least_peak_bound(relaxation, seconds=_PEAK_SHARE * watch.left())
    if bound is None:
        return RelaxedPlans(infeasible=peak is None)
    watch.finish_stage("relaxation", peak, bound)
    found = _fair_plan(relaxation, limits, watch, bound=bound, peak_at_most=bound)
    if found.plan is None and (watch.left() > 0 or peak is None):
        found = _whole_plan(relaxation, limits, watch, start=start, bound=bound)
        if found.infeasible and peak is not None:
            found = replace(found, infeasible=False)
    watch.finish_stage("trip peaks", peak, found.bound)
    return found


def _fair_plan(
    relaxation: Relaxation,
    limits: Limits,
    watch: Watch,
    *,
    bound: int,
    peak_at_most: int,
    start: Rides | None = None,
) -> RelaxedPlans:
    """Rides with low trips under a peak, which is no higher than need be.

    What is left from there up to the gap is for whole units.
    """
    fair = solve_relaxation(
        relaxation,
        seconds=_FAIR_SHARE * watch.left(),
        gap=max(1e-4, 0.5 * limits.gap / FRACTION_GRID),
        low_trips=True,
        peak_at_most=peak_at_most,
        start=start,
    )
    return RelaxedPlans(bound, plan=fair, fair=fair, fair_up_to=peak_at_most)


def _whole_plan(
    relaxation: Relaxation, limits: Limits, watch: Watch, *, start: Rides | None, bound: int
) -> RelaxedPlans:
    """Where whole units keep the peak above its bound: the least they need, then as before."""
    first = solve_relaxation(
        relaxation,
        seconds=_FAIR_SHARE * watch.left(),
        gap=max(1e-5, 0.1 * limits.gap / FRACTION_GRID),
        low_trips=False,
        peak_at_most=FRACTION_GRID,
        start=start,
        fully=True,
    )
    if first is None:
        seconds = max(1.0, _FAIR_SHARE * watch.left())
        return RelaxedPlans(bound, infeasible=is_impossible(relaxation, seconds=seconds))
    bound = max(bound, first.bound)
    up_to = max(first.trip_fractions, default=0)
    found = _fair_plan(
        relaxation, limits, watch, bound=bound, peak_at_most=up_to, start=first.rides
    )
    return found if found.plan is not None else replace(found, plan=first)
