"""Fuel apart from food: no pack and no sled holds both fuel and bags of food.

In each pack and on each sled of a trip: containers with fuel and fuel among the gear = 0, or
bags = 0. Empty containers and the lunch of the day do not count.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "fuel_apart_from_food"


def fuel_apart_from_food(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds in which fuel rides with food."""
    units = replay.facts.units
    for record in replay.records:
        for carrier in record.carriers:
            riding = sorted(carrier.counts)
            fuel = [unit_id for unit_id in riding if units[unit_id].holds_fuel]
            food = [unit_id for unit_id in riding if units[unit_id].kind is UnitKind.BAG]
            if fuel and food:
                yield Finding(
                    RULE,
                    f"{carrier.name} on {trip_words(record.trip)}: {', '.join(fuel)} with fuel in "
                    f"it rides with food, {', '.join(food)}",
                    1,
                    "loads",
                    (*trip_where(record.trip), *carrier_where(carrier)),
                )
