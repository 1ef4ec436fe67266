"""The preference on fuel and food: packs and sleds that hold both."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Held
from solver.model.formulation.frame import Frame
from solver.model.instance.cargo import Cargo, CargoKind
from solver.problem import Purpose

RULE = "fuel_apart_from_food"


def mixed_loads(frame: Frame, held: Held) -> int:
    """How many packs and sleds of a trip hold both fuel and bags of food; 0 if nobody asks."""
    if not frame.world.problem.asks(RULE):
        return 0
    kinds: dict[str, set[bool]] = defaultdict(set)
    for (cargo, carrier_id), units in held.items():
        thing = frame.world.cargo[cargo]
        if units and (is_fuel(thing) or is_food(thing)):
            kinds[carrier_id].add(is_fuel(thing))
    return sum(len(both) == 2 for both in kinds.values())


def is_fuel(thing: Cargo) -> bool:
    """Whether there is fuel in it: full and open containers, and fuel among the gear."""
    in_gear = thing.item is not None and thing.item.purpose is Purpose.FUEL
    return in_gear or thing.kind in (CargoKind.FULL, CargoKind.OPEN)


def is_food(thing: Cargo) -> bool:
    """Whether it is a bag of night sets; lunch for the day is on the body and does not count."""
    return thing.kind is CargoKind.BAG
