"""Flight payload held: people and cargo of a flight are together within its payload.

Sum of people's flying mass (and first lunch on the way in) + sum of units x mass <= payload.

Documents: aircraft-weight, glacier-flights.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.telling import kg
from solver.plan import Finding

RULE = "flight_payload_held"


def flight_payload_held(replay: Replay) -> Iterator[Finding]:
    """Grams above a flight's payload."""
    for side in sides(replay):
        for flown in side.flights:
            mass_g, payload_g = side.mass_g(flown), flown.flight.payload_g
            if mass_g > payload_g:
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: {kg(mass_g)} aboard, payload "
                    f"{kg(payload_g)}, {kg(mass_g - payload_g)} too much",
                    mass_g - payload_g,
                    "g",
                    (("flight", flown.flight.flight_id),),
                )
