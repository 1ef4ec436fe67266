"""The relaxed plan made a whole one: its rides are kept, and every trip is packed for itself."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.assignment.by_trip import riding_by_trip
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH
from solver.model.run import run_within
from solver.model.solvers.exact_trip import pack_exactly
from solver.model.solvers.relaxed_plans import RelaxedPlans
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID


@dataclass(frozen=True, slots=True)
class PackedPlan:
    """A draft with the relaxed plan's rides, None where some trip could not be packed.

    `bound` is on the peak: the relaxation's, or higher where whole units prove more [1/10,000].
    """

    draft: Draft | None
    bound: int


def pack_relaxed(
    frame: Frame, relaxed: RelaxedPlans, limits: Limits, watch: Watch, *, has_draft: bool
) -> PackedPlan:
    """Pack every trip: longest first, then swaps, then exactly where it passes the bound.

    Each trip aims at its own fraction in the relaxed plan; only one above the peak's bound is
    worth an exact packing here. With a draft already, running out of time ends it.
    """
    if relaxed.plan is None:
        return PackedPlan(None, relaxed.bound)
    proven = relaxed.bound
    carried: dict[tuple[int, int, str], int] = {}
    near = FRACTION_GRID + limits.gap
    slack = spread_slack(frame, relaxed.plan.rides)
    for trip, riding in enumerate(riding_by_trip(frame, relaxed.plan.rides)):
        if watch.left() <= 0 and has_draft:
            return PackedPlan(None, proven)
        load = packed_trip(frame, trip, riding, slack[trip])
        aim = relaxed.plan.trip_fractions[trip] * near // FRACTION_GRID
        stopped = watch.should_stop if has_draft else None
        peak = lower_peak(load, target=aim, should_stop=stopped)
        held = load.held()
        if peak > relaxed.bound * near // FRACTION_GRID:
            answer = pack_exactly(
                frame,
                trip,
                riding,
                slack[trip],
                run_within(limits, min(2.0, 0.1 * watch.left()), watch),
                hint=held if peak < TOO_MUCH else None,
                at_least=min(relaxed.bound, peak),
            )
            if answer.held is None and peak >= TOO_MUCH:
                return PackedPlan(None, proven)
            held = answer.held or held
            if all((cargo, trip) in frame.settled for cargo in frame.allowed_cargo[trip]):
                # Whole units without a choice of trip: the trip's bound is one on the peak.
                proven = max(proven, answer.bound)
        carried |= {(cargo, trip, carrier): units for (cargo, carrier), units in held.items()}
    return PackedPlan(Draft(carried), proven)
