"""One trip packed as well as a short time allows, with a lower bound on its fraction."""

from __future__ import annotations

from solver.model.assignment.by_trip import join_one, riding
from solver.model.assignment.draft import Held
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.run import run_within
from solver.model.solvers.exact_trip import TripAnswer, pack_exactly
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID


def pack_well(
    frame: Frame,
    trip: int,
    held: Held,
    limits: Limits,
    watch: Watch,
    *,
    slack: Slack,
    aim: int,
) -> TripAnswer:
    """The trip packed longest first, by swaps and then exactly, as long as it misses its aim.

    `held` is how it is packed so far, `aim` the fraction that the relaxation gives it [1/10,000].
    """
    units = riding(held)
    load = packed_trip(frame, trip, units, slack)
    near = aim * (FRACTION_GRID + limits.gap) // FRACTION_GRID
    reached = lower_peak(load, target=near, most_moves=150, should_stop=watch.should_stop)
    before = trip_fractions(frame, join_one(trip, held))[trip]
    if reached < before:
        held = load.held()
    if not load.has_choice.any():
        return TripAnswer(held, min(reached, before), infeasible=False, proven=True)
    if min(reached, before) <= near:
        return TripAnswer(held, min(aim, reached, before), infeasible=False, proven=False)
    answer = pack_exactly(
        frame,
        trip,
        units,
        slack,
        run_within(limits, min(0.05, 0.02 * watch.left()), watch),
        hint=held,
    )
    return (
        answer if answer.held is not None else TripAnswer(held, 0, infeasible=False, proven=False)
    )
