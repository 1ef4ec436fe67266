"""Flight length held: the length of each thing aboard <= the longest that the flight takes.

Things whose length is not given are left to the advisory cargo_lengths_given.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding

RULE = "flight_length_held"


def flight_length_held(replay: Replay) -> Iterator[Finding]:
    """Millimetres by which a thing is too long for its flight."""
    for side in sides(replay):
        for flown in side.flights:
            longest_mm = flown.flight.longest_mm
            for item in replay.facts.problem.gear:
                if longest_mm is None or item.length_mm is None:
                    continue
                over_mm = item.length_mm - longest_mm
                if over_mm > 0 and flown.counts.get(item.unit_id, 0):
                    yield Finding(
                        RULE,
                        f"{item.unit_id} on flight {flown.flight.flight_id}: {item.length_mm} mm "
                        f"long, {longest_mm} mm go in, {over_mm} mm too long",
                        over_mm,
                        "mm",
                        (("flight", flown.flight.flight_id), ("unit", item.unit_id)),
                    )
