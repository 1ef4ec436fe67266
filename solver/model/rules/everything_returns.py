"""What was not used up is back at the start when the trip ends.

For each cargo that outlives the trip: units at the start place in the last state ≥ all that
were not used.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import StockRow


def build(world: World) -> list[StockRow]:
    """One row for each cargo that is not used up whole on the way."""
    rows = []
    for cargo in world.cargo:
        left = cargo.count - sum(units for _, _, units in cargo.uses)
        if cargo.dies is None and left > 0:
            rows.append(
                StockRow(
                    "everything_returns",
                    world.clock.last,
                    world.problem.start_place,
                    ((cargo.index, 1),),
                    left,
                )
            )
    return rows
