"""Stock of a cargo at a place in a state, as a sum over its rides.

`Σ rides in − Σ rides out + born there − used there`: written once here for every search
method, whether rides are numbers, solver variables or both.
"""

from __future__ import annotations

from solver.model.formulation.flow_row import FlowRow, Move
from solver.model.formulation.frame import Frame
from solver.model.rows import LossRow


def stock_terms(
    frame: Frame, cargo: int, place_id: str, state: int
) -> tuple[dict[tuple[int, int], int], int]:
    """Stock of a cargo at a place in a state: coefficients of its rides, and a constant."""
    world = frame.world
    thing = world.cargo[cargo]
    constant = dict(thing.begins).get(place_id, 0) if thing.born <= state else 0
    constant -= sum(
        units for event, place, units in thing.uses if place == place_id and event <= state
    )
    terms = {ride: sign for event, ride, sign in _moves(frame, cargo, place_id) if event <= state}
    return terms, constant


def _moves(frame: Frame, cargo: int, place_id: str) -> tuple[Move, ...]:
    """The rides of a cargo to and from a place; worked out once for each frame."""
    moves = frame.cache.moves.get((cargo, place_id))
    if moves is None:
        trips, events = frame.world.timeline.trips, frame.world.clock.trip_event
        moves = frame.cache.moves[cargo, place_id] = tuple(
            (events[trip], (cargo, trip), 1 if trips[trip].to_place == place_id else -1)
            for trip in frame.allowed_trips[cargo]
            if place_id in (trips[trip].to_place, trips[trip].from_place)
        )
    return moves


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
    if row not in frame.cache.left:
        frame.cache.left[row] = _left_after_loss(frame, row)
    return frame.cache.left[row]


def _left_after_loss(frame: Frame, row: LossRow) -> FlowRow:
    state = frame.world.clock.trip_event[row.trip]
    terms, constant = within_reach(frame, row.terms, row.place_ids, state)
    loose = tuple((ride, factor) for ride, factor in terms.items() if factor)
    return FlowRow(row.rule_id, loose, constant - row.at_least)
