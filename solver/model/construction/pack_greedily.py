"""The greedy plan's trips packed longest first."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Draft, Held
from solver.model.construction.greedy_failure import Unpacked
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH
from solver.model.run import Run
from solver.model.solvers.exact_trip import pack_exactly
from solver.quantities import FRACTION_GRID


def pack_greedily(frame: Frame, rides: Rides, run: Run) -> Draft | Unpacked:
    """Share every trip's units out longest first, or the first trip that does not fit.

    Where longest first breaks a limit, units are moved about until none is broken, and no
    further: this is where the search begins and not the answer.
    """
    riding: dict[int, dict[int, int]] = defaultdict(dict)
    for (cargo, trip), units in rides.items():
        if units:
            riding[trip][cargo] = units
    carried: dict[tuple[int, int, str], int] = {}
    slack = spread_slack(frame, rides)
    for trip in range(len(frame.world.timeline.trips)):
        load = packed_trip(frame, trip, riding[trip], slack[trip])
        fits = load.peak() < TOO_MUCH or lower_peak(load, target=FRACTION_GRID) <= FRACTION_GRID
        held: Held | None = load.held()
        if not fits:
            answer = pack_exactly(frame, trip, riding[trip], slack[trip], run, enough=FRACTION_GRID)
            held = answer.held
        if held is None:
            return Unpacked(trip, load, slack[trip])
        carried |= {(cargo, trip, carrier): units for (cargo, carrier), units in held.items()}
    return Draft(carried)
