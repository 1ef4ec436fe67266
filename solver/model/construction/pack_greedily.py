"""The greedy plan's trips packed longest first."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH
from solver.model.run import Run
from solver.model.solvers.exact_trip import pack_exactly
from solver.quantities import FRACTION_GRID


def pack_greedily(frame: Frame, rides: dict[tuple[int, int], int], run: Run) -> tuple[Draft, bool]:
    """Share every trip's units out longest first; whether all of them fit.

    Where longest first breaks a limit, things are moved about until none is broken; no
    further, since this is the floor and not the answer.
    """
    riding: dict[int, dict[int, int]] = defaultdict(dict)
    for (cargo, trip), units in rides.items():
        if units:
            riding[trip][cargo] = units
    carried: dict[tuple[int, int, str], int] = {}
    slack = spread_slack(frame, rides)
    fits = True
    for trip in range(len(frame.world.timeline.trips)):
        load = packed_trip(frame, trip, riding[trip], slack[trip])
        held = load.carried(trip) if load.peak() < TOO_MUCH else None
        if held is None and lower_peak(load, target=FRACTION_GRID) <= FRACTION_GRID:
            held = load.carried(trip)
        if held is None:
            answer = pack_exactly(frame, trip, riding[trip], slack[trip], run, enough=FRACTION_GRID)
            held = {(cargo, trip, k): n for (cargo, k), n in (answer.held or {}).items()}
            fits = fits and answer.held is not None
        carried |= held
    return Draft(carried), fits
