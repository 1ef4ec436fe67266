"""Flight volume held: cargo of a flight takes at most the volume given for it.

Sum of units x volume <= volume. What rides outside packs takes room here.

Documents: glacier-flights.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.telling import litres
from solver.plan import Finding

RULE = "flight_volume_held"


def flight_volume_held(replay: Replay) -> Iterator[Finding]:
    """Millilitres above a flight's volume."""
    for side in sides(replay):
        for flown in side.flights:
            most_ml, volume_ml = flown.flight.volume_ml, side.volume_ml(flown)
            if most_ml is not None and volume_ml > most_ml:
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: cargo of {litres(volume_ml)}, room for "
                    f"{litres(most_ml)}, {litres(volume_ml - most_ml)} too much",
                    volume_ml - most_ml,
                    "mL",
                    (("flight", flown.flight.flight_id),),
                )
