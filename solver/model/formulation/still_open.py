"""Of an expedition that is under way, the rows about what can still be chosen."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import ConserveRow, OwnRow, ReachRow, Row, StockRow


def still_open(world: World, rows: list[Row]) -> list[Row]:
    """The rows on states after the moment and on trips to come; trips that are over have none.

    A row on states that the moment has settled is the checker's to judge, not the search's.
    """
    history = world.problem.history
    if history is None:
        return rows
    now = world.clock.moment(history)
    return [row for row in rows if _is_open(world, row, now)]


def _is_open(world: World, row: Row, now: int) -> bool:
    match row:
        case StockRow() | ReachRow():
            return row.state > now
        case ConserveRow() | OwnRow():
            return True
        case _:
            return world.clock.trip_event[row.trip] > now
