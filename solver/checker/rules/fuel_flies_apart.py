"""Fuel flies apart: no container with fuel in it flies with passengers without consent.

On a flight with passengers whose operator does not take fuel beside them: full containers +
open containers + fuel among the gear = 0. Empty ones may fly.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding

RULE = "fuel_flies_apart"


def fuel_flies_apart(replay: Replay) -> Iterator[Finding]:
    """Containers with fuel that fly with people."""
    units = replay.facts.units
    for side in sides(replay):
        for flown in side.flights:
            if not flown.people or flown.flight.fuel_with_people:
                continue
            containers = sum(
                count
                for unit_id, count in flown.counts.items()
                if unit_id in units and units[unit_id].holds_fuel
            )
            word = "container" if containers == 1 else "containers"
            if containers:
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: {containers} {word} with fuel beside "
                    f"{len(flown.people)} passengers, and the request does not say that the "
                    "operator takes them",
                    containers,
                    "containers",
                    (("flight", flown.flight.flight_id),),
                    (
                        "say that the flight takes fuel with people, once the operator agrees",
                        "put the fuel on a flight without passengers",
                    ),
                )
