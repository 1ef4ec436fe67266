"""Reserves stand whole while they must be held; several at one place add up.

Food, for each night, place and night set: bags there after use ≥ Σ bags of the reserves.
Fuel, for each night, place and kitchen: Σ content × full containers ≥ Σ fuel of the reserves
of all who eat from it.
"""

from __future__ import annotations

from collections import Counter, defaultdict

from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import World
from solver.model.rows import StockRow


def build(world: World) -> list[StockRow]:
    """A row for food and one for fuel, for each night and place with a reserve."""
    bags: Counter[tuple[int, str, str]] = Counter()
    fuel_ml: Counter[tuple[int, str, str]] = Counter()
    for held in world.needs.reserves:
        reserve, event = held.reserve, world.clock.night_event[held.day]
        unit_id = f"{reserve.cook_group_id}/{reserve.set_id}"
        bags[event, reserve.place_id, unit_id] += held.bags
        kitchen_id = world.problem.kitchen_id(reserve.cook_group_id)
        fuel_ml[event, reserve.place_id, kitchen_id] += held.fuel_ml
    by_unit = {cargo.unit_id: cargo.index for cargo in world.cargo}
    content_ml = {c.unit_id: c.content_ml for c, _ in world.needs.containers}
    rows = []
    for (event, place_id, unit_id), count in bags.items():
        bag = ((by_unit[unit_id], 1),) if unit_id in by_unit else ()
        rows.append(StockRow("reserves_held", event, place_id, bag, count))
    full: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for cargo in world.cargo:
        if cargo.kind is CargoKind.FULL and cargo.cook_group_id is not None:
            full[cargo.cook_group_id].append((cargo.index, content_ml[cargo.unit_id]))
    rows += [
        StockRow("reserves_held", event, place_id, tuple(full[group_id]), need_ml)
        for (event, place_id, group_id), need_ml in fuel_ml.items()
        if need_ml > 0
    ]
    return rows
