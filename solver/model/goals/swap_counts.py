"""Swaps counted: for each unit id, the smaller of what people gain and give up between trips."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping
from itertools import pairwise

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import hauler_of
from solver.model.formulation.frame import Frame
from solver.model.instance.cargo import Cargo
from solver.problem import NeedKind
from solver.rulebook.goals import SWAP_AT_STOP, SWAP_OF_SINGLE, SWAP_OF_STOCK

Riders = Mapping[str, Mapping[int, Counter[str]]]
"""By unit id and trip, how many units ride with each person."""


def weighted_swaps(frame: Frame, draft: Draft) -> int:
    """Swaps of a draft, each times its weight; items that ride with their owner are left out."""
    things = {thing.unit_id: thing for thing in frame.world.cargo}
    total = 0
    for unit_id, on_trips in riders_of(frame, draft).items():
        for earlier, later in pairwise(sorted(on_trips)):
            before, after = on_trips[earlier], on_trips[later]
            swapped = min((after - before).total(), (before - after).total())
            total += swapped * swap_weight(frame, things[unit_id], earlier, later)
    return total


def riders_of(frame: Frame, draft: Draft) -> Riders:
    """Who has how many of each unit on each trip, in pack and on sled together."""
    haulers = hauler_of(frame)
    riders: dict[str, dict[int, Counter[str]]] = defaultdict(lambda: defaultdict(Counter))
    for (cargo, trip, carrier_id), units in sorted(draft.carried.items()):
        thing = frame.world.cargo[cargo]
        if units and may_swap(thing):
            riders[thing.unit_id][trip][haulers.get(carrier_id, carrier_id)] += units
    return riders


def may_swap(thing: Cargo) -> bool:
    """Whether units can change hands at all: not an item that rides with its owner."""
    item = thing.item
    return item is None or item.owner_id is None or item.need.kind is not NeedKind.EVERY_TRIP


def swap_weight(frame: Frame, thing: Cargo, earlier: int, later: int) -> int:
    """What a swap between two trips counts."""
    trips = frame.world.timeline.trips
    if trips[earlier].day == trips[later].day:
        return SWAP_AT_STOP
    return SWAP_OF_SINGLE if thing.item is not None and thing.count == 1 else SWAP_OF_STOCK
