"""Loss rows that hold whatever is chosen, found and left out."""

from __future__ import annotations

from dataclasses import replace

from solver.model.formulation.flow_balance import stock_terms
from solver.model.formulation.flow_row import FlowRowCache
from solver.model.formulation.frame import Frame
from solver.model.rows import LossRow, StockRow


def without_redundant_losses(frame: Frame) -> Frame:
    """The frame without the loss rows that hold whatever is chosen.

    What stays behind where a trip begins, since it is used or kept there before anything can
    come back, is never lost with a carrier.
    """
    kept = tuple(
        tuple(
            row
            for row in rows
            if not isinstance(row, LossRow) or _stays_behind(frame, row) < row.at_least
        )
        for rows in frame.spread_rows
    )
    return replace(frame, spread_rows=kept, cache=FlowRowCache())


def _stays_behind(frame: Frame, row: LossRow) -> int:
    """Σ weight × units that must stand within reach while the trip is under way, at least."""
    trip = frame.world.timeline.trips[row.trip]
    event = frame.world.clock.trip_event[row.trip]
    elsewhere = (place for place in row.place_ids if place != trip.to_place)
    return sum(_must_stand(frame, row, place_id, event) for place_id in elsewhere)


def _must_stand(frame: Frame, row: LossRow, place_id: str, event: int) -> int:
    """Σ weight × units that stand at a place after an event, at least.

    For each stock what is used there before any of it can come back, or kept there over some
    night until then; of things those that have no choice but to stand there.
    """
    world = frame.world
    weight_of = dict(row.terms)
    returns = {cargo: _comes_back(frame, cargo, place_id, event) for cargo in weight_of}
    uses = [
        (at, cargo, weight * units)
        for cargo, weight in weight_of.items()
        for at, place, units in world.cargo[cargo].uses
        if place == place_id and event <= at < returns[cargo]
    ]
    best = sum(amount for _, _, amount in uses)
    for held in frame.kept_at.get(place_id, ()):
        kept = _kept_by(held, weight_of)
        if kept and event <= held.state < min(returns[cargo] for cargo, _ in held.terms):
            so_far = sum(amount for at, _, amount in uses if at <= held.state)
            best = max(best, so_far + kept)
    settled = sum(
        weight * _settled_there(frame, cargo, place_id, event)
        for cargo, weight in weight_of.items()
        if not world.cargo[cargo].is_stock
    )
    return best + settled


def _comes_back(frame: Frame, cargo: int, place_id: str, event: int) -> int:
    """The first event from one on in which units of a cargo may arrive at a place."""
    trips, clock = frame.world.timeline.trips, frame.world.clock
    arrivals = (
        clock.trip_event[t] for t in frame.allowed_trips[cargo] if trips[t].to_place == place_id
    )
    return min((at for at in arrivals if at >= event), default=clock.last + 1)


def _kept_by(held: StockRow, weight_of: dict[int, int]) -> int:
    """How much of a weighted sum a row keeps at its place, 0 where it is about other things."""
    if held.at_least <= 0 or not all(cargo in weight_of for cargo, _ in held.terms):
        return 0
    if all(weight_of[cargo] == weight for cargo, weight in held.terms):
        return held.at_least
    ((cargo, weight), *more) = held.terms
    return 0 if more or weight != 1 else weight_of[cargo] * held.at_least


def _settled_there(frame: Frame, cargo: int, place_id: str, state: int) -> int:
    """Units of a thing that stand at a place in a state whatever is chosen."""
    terms, constant = stock_terms(frame, cargo, place_id, state)
    count = frame.world.cargo[cargo].count
    if any(ride not in frame.settled for ride in terms):
        return 0
    return constant + sum(factor * count for factor in terms.values())
