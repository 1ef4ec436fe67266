"""Stock of a cargo at a place in a state, as a sum over its rides.

`Σ rides in − Σ rides out + born there − used there`: written once here for every search
method, whether rides are numbers, solver variables or both.
"""

from __future__ import annotations

from solver.model.formulation.flow_row import FlowRow
from solver.model.formulation.frame import Frame
from solver.model.rows import LossRow


def stock_terms(
    frame: Frame, cargo: int, place_id: str, state: int
) -> tuple[dict[tuple[int, int], int], int]:
    """Stock of a cargo at a place in a state: coefficients of its rides, and a constant."""
    world = frame.world
    thing = world.cargo[cargo]
    constant = thing.count if thing.birthplace == place_id and thing.born <= state else 0
    constant -= sum(
        units for event, place, units in thing.uses if place == place_id and event <= state
    )
    terms: dict[tuple[int, int], int] = {}
    for trip_index in frame.allowed_trips[cargo]:
        if world.clock.trip_event[trip_index] > state:
            continue
        trip = world.timeline.trips[trip_index]
        if trip.to_place == place_id:
            terms[cargo, trip_index] = 1
        elif trip.from_place == place_id:
            terms[cargo, trip_index] = -1
    return terms, constant


def within_reach(
    frame: Frame, terms: tuple[tuple[int, int], ...], place_ids: tuple[str, ...], state: int
) -> tuple[dict[tuple[int, int], int], int]:
    """Σ weight × units standing at some places: coefficients of rides, and a constant."""
    total: dict[tuple[int, int], int] = {}
    constant = 0
    for cargo, weight in terms:
        for place_id in place_ids:
            its_terms, its_constant = stock_terms(frame, cargo, place_id, state)
            constant += weight * its_constant
            for ride, sign in its_terms.items():
                total[ride] = total.get(ride, 0) + weight * sign
    return total, constant


def left_after_loss(frame: Frame, row: LossRow) -> FlowRow:
    """What one carrier of a row's trip may take at most, as a sum over rides."""
    state = frame.world.clock.trip_event[row.trip]
    terms, constant = within_reach(frame, row.terms, row.place_ids, state)
    loose = tuple((ride, factor) for ride, factor in terms.items() if factor)
    return FlowRow(row.rule_id, loose, constant - row.at_least)
