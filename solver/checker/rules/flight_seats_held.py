"""Flight seats held: passengers of a flight <= its seats.

Documents: aircraft-seats, glacier-flights.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding

RULE = "flight_seats_held"


def flight_seats_held(replay: Replay) -> Iterator[Finding]:
    """Passengers without a seat."""
    for side in sides(replay):
        for flown in side.flights:
            people, seats = len(flown.people), flown.flight.seats
            if people > seats:
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: {people} people, {seats} seats, "
                    f"{people - seats} too many",
                    people - seats,
                    "people",
                    (("flight", flown.flight.flight_id),),
                )
