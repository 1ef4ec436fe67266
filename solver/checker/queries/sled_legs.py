"""The legs that sleds are hauled along, and which way."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.problem import Direction, Leg


def read_sled_legs(facts: Facts) -> list[tuple[Leg, frozenset[Direction]]]:
    """Each leg on which the calendar has sleds hauled, with the directions, as first met."""
    directions: dict[str, set[Direction]] = {}
    legs: dict[str, Leg] = {}
    for trip in facts.timeline.trips:
        if trip.sled_ids:
            legs[trip.leg.leg_id] = trip.leg
            directions.setdefault(trip.leg.leg_id, set()).add(trip.direction)
    return [(leg, frozenset(directions[leg_id])) for leg_id, leg in legs.items()]
