"""What one carrier may hold by each spread row of a trip, once the rides are known."""

from __future__ import annotations

from solver.model.formulation.flow_balance import left_after_loss
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.rows import ApartRow, CountRow, LossRow, SpreadRow

Slack = tuple[int, ...]
"""What one carrier may hold at most by each spread row of a trip."""


def spread_slack(frame: Frame, rides: Rides) -> list[Slack]:
    """For each trip and each of its spread rows, what one carrier may hold at most.

    The amounts follow from the rides of the whole plan: what stands within reach counts.
    """
    return [
        tuple(_slack(frame, row, rides) for row in frame.spread_rows[trip])
        for trip in range(len(frame.world.timeline.trips))
    ]


def _slack(frame: Frame, row: SpreadRow, rides: Rides) -> int:
    match row:
        case CountRow():
            return row.at_most
        case LossRow():
            left = left_after_loss(frame, row)
            return left.constant + sum(rides.get(ride, 0) * factor for ride, factor in left.terms)
        case ApartRow():
            total = sum(rides.get((cargo, row.trip), 0) for cargo in row.cargoes)
            return (total + 1) // 2 if row.half else max(total - 1, 1)
