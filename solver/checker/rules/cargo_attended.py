"""Cargo attended: nothing is flown where nobody of the party meets it or loads it.

For each flight with cargo that the operator does not load: in, people on it or on an earlier
flight >= 1; out, people on it or on a later flight >= 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding
from solver.problem import FlightDirection

RULE = "cargo_attended"


def cargo_attended(replay: Replay) -> Iterator[Finding]:
    """Flights with cargo that nobody is there for, each with its number of units."""
    place = replay.facts.problem.start_place
    for side in sides(replay):
        inbound = side.direction is FlightDirection.FLY_IN
        in_reach = side.flights if inbound else side.flights[::-1]
        words = "meets it" if inbound else "loads it"
        is_met = False
        unattended: list[Finding] = []
        for flown in in_reach:
            is_met = is_met or bool(flown.people)
            units = sum(flown.counts.values())
            if is_met or flown.flight.loaded_by_operator or not units:
                continue
            flight_id = flown.flight.flight_id
            unattended.append(
                Finding(
                    RULE,
                    f"flight {flight_id} has cargo, and nobody of the party at {place} {words}",
                    units,
                    "units",
                    (("flight", flight_id),),
                )
            )
        yield from unattended if inbound else unattended[::-1]
