"""Nothing stands for long at a place that nobody visits, the start excepted.

For each place whose visits are further apart than the days of the setting: Σ units of food,
fuel and gear standing there in between ≤ 0. Marks stay, and so do sacks of trash and waste.
"""

from __future__ import annotations

from itertools import pairwise

from solver.model.instance.cargo import Cargo, CargoKind
from solver.model.instance.world import World
from solver.model.rows import StockRow
from solver.problem import Purpose


def build(world: World) -> list[StockRow]:
    """One row for each place and time for which it is left alone too long."""
    limit = world.problem.rules.whole("cache_days")
    nights = len(world.timeline.nights)
    stored = [cargo for cargo in world.cargo if _is_stored(cargo)]
    rows = []
    for place in world.problem.route.places:
        if place.place_id == world.problem.start_place:
            continue
        visits = [
            number
            for number, day in enumerate(world.problem.calendar.days, start=1)
            if any(place.place_id in visit.places for visit in day.visits)
        ]
        for last, following in pairwise([*visits, nights + 2]):
            if following - last > limit and last <= nights:
                state = world.clock.night_event[last]
                there = tuple((c.index, -1) for c in stored if c.is_there(state))
                rows.append(StockRow("cache_time_limited", state, place.place_id, there, 0))
    return rows


def _is_stored(cargo: Cargo) -> bool:
    """Whether a cargo is kept for use, and neither marks a place nor waits for the way down."""
    if cargo.item is not None:
        return cargo.item.purpose not in (Purpose.MARKER_POLE, Purpose.WAND)
    return cargo.kind is not CargoKind.SACK
