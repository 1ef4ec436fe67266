"""Outbound payload lowered: a flight out has at most a share of its payload aboard.

100 x (people + cargo) <= outbound_payload_percent x payload, for every flight out.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.telling import kg
from solver.plan import Finding
from solver.problem import FlightDirection
from solver.quantities import share_down

RULE = "outbound_payload_lowered"


def outbound_payload_lowered(replay: Replay) -> Iterator[Finding]:
    """Grams above the lowered payload of a flight out."""
    percent = replay.facts.problem.rules.whole("outbound_payload_percent")
    for side in sides(replay):
        if side.direction is FlightDirection.FLY_IN:
            continue
        for flown in side.flights:
            mass_g = side.mass_g(flown)
            lowered_g = share_down(amount=flown.flight.payload_g, percent=percent)
            if mass_g > lowered_g:
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: {kg(mass_g)} aboard. Soft snow or elevation "
                    f"may leave {kg(lowered_g)} of its payload ({percent} %), "
                    f"{kg(mass_g - lowered_g)} less: ask the pilot",
                    mass_g - lowered_g,
                    "g",
                    (("flight", flown.flight.flight_id),),
                )
