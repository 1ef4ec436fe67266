"""Counted stock that never leaves the start and that no rule needs there: it is not taken along.

The calendar alone gives each reserve bags and containers of its own. In a plan one container
often serves a reserve after another, so that some stand at the start from first to last.
"""

from __future__ import annotations

from dataclasses import replace

from solver.model.assignment.by_trip import by_trip
from solver.model.assignment.draft import Draft
from solver.model.formulation.flow_balance import stock_terms, within_reach
from solver.model.formulation.flow_row import FlowRowCache, Rides
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.held_trip import load_trip
from solver.model.packing.trip_load import TOO_MUCH
from solver.model.rows import ReachRow, StockRow

_RETURNS = "everything_returns"
"""The rule whose rows count every unit that is taken along."""


def without_idle_stock(frame: Frame, draft: Draft) -> Frame:
    """The frame with as few units of stock as the draft keeps every row with.

    `frame` has every row of every rule. Only what the request gives no count of may be fewer; the
    heaviest are left out first.
    """
    rides = draft.rides()
    idle = _idle(frame, rides)
    fewer = _within_rows(frame, rides, idle)
    if not any(fewer.values()):
        return frame
    together = _with_fewer(frame, fewer)
    if _keeps_rows(together, draft):
        return together
    for cargo, units in fewer.items():
        alone = _with_fewer(frame, {cargo: units})
        if units and _keeps_rows(alone, draft):
            frame = alone
    return frame


def _idle(frame: Frame, rides: Rides) -> dict[int, int]:
    """Units by cargo that stand at the start in every state, the heaviest cargo first."""
    world, found = frame.world, {}
    free = _uncounted(frame)
    for thing in world.cargo:
        if thing.unit_id in free and thing.is_stock:
            states = range(thing.born, world.clock.last + 1)
            start = world.problem.start_place
            found[thing.index] = min(
                constant + sum(sign * rides.get(ride, 0) for ride, sign in terms.items())
                for terms, constant in (
                    stock_terms(frame, thing.index, start, state) for state in states
                )
            )
    heaviest_first = sorted(found, key=lambda cargo: (-world.cargo[cargo].mass_g, cargo))
    return {cargo: found[cargo] for cargo in heaviest_first}


def _uncounted(frame: Frame) -> frozenset[str]:
    """Unit ids of bags and containers that the request gives no count of."""
    problem = frame.world.problem
    bags = (one.unit_id for one in problem.night_sets if one.bag_count is None)
    kinds = (kind for group in problem.cook_groups for kind in group.containers)
    return frozenset((*bags, *(kind.unit_id for kind in kinds if kind.count is None)))


def _within_rows(frame: Frame, rides: Rides, idle: dict[int, int]) -> dict[int, int]:
    """How many of the idle units no row on what stands at the start asks for, by cargo."""
    start = frame.world.problem.start_place
    rows = [row for row in frame.stock_rows if row.rule_id != _RETURNS]
    placed: list[tuple[StockRow | ReachRow, tuple[str, ...]]] = [
        *((row, (row.place_id,)) for row in rows),
        *((row, row.place_ids) for row in frame.reach_rows),
    ]
    spare: list[tuple[dict[int, int], int]] = []
    for row, place_ids in placed:
        if start in place_ids:
            factors, constant = within_reach(frame, row.terms, place_ids, row.state)
            held = constant + sum(sign * rides.get(ride, 0) for ride, sign in factors.items())
            spare.append((dict(row.terms), held - row.at_least))
    fewer: dict[int, int] = {}
    for cargo, units in idle.items():
        room = [left // weights[cargo] for weights, left in spare if weights.get(cargo, 0) > 0]
        fewer[cargo] = max(0, min((units, *room)))
        spare = [(weights, left - weights.get(cargo, 0) * fewer[cargo]) for weights, left in spare]
    return fewer


def _with_fewer(frame: Frame, fewer: dict[int, int]) -> Frame:
    """The same rows on a world with fewer units of some cargoes."""
    cargo = tuple(
        replace(thing, count=thing.count - fewer.get(thing.index, 0)) for thing in frame.world.cargo
    )
    return replace(
        frame,
        world=replace(frame.world, cargo=cargo),
        stock_rows=tuple(_returned(row, fewer) for row in frame.stock_rows),
        cache=FlowRowCache(),
    )


def _returned(row: StockRow, fewer: dict[int, int]) -> StockRow:
    """A row that all units come back, by as many as are left out; any other row as it is."""
    if row.rule_id != _RETURNS:
        return row
    left_out = sum(weight * fewer.get(cargo, 0) for cargo, weight in row.terms)
    return replace(row, at_least=row.at_least - left_out)


def _keeps_rows(frame: Frame, draft: Draft) -> bool:
    """Whether a draft keeps the rows on rides and, trip by trip, those on how units are shared."""
    rides = draft.rides()
    if not keeps_flow_rows(frame, rides):
        return False
    held, slack = by_trip(frame, draft), spread_slack(frame, rides)
    return all(
        load_trip(frame, trip, held[trip], slack[trip]).peak() < TOO_MUCH
        for trip in range(len(held))
    )
