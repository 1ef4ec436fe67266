"""Passengers as settled: a flight whose passengers the request names has those and no others.

For each such flight: people aboard = people named. The amount is how many differ.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding

RULE = "passengers_as_settled"


def passengers_as_settled(replay: Replay) -> Iterator[Finding]:
    """People who should be on a flight and are not, or the other way round."""
    for side in sides(replay):
        for flown in side.flights:
            if flown.flight.person_ids is None:
                continue
            aboard = {person.person_id for person in flown.people}
            settled = set(flown.flight.person_ids)
            missing = sorted(settled - aboard)
            unasked = sorted(aboard - settled)
            if missing or unasked:
                words = [f"{', '.join(missing)} should be aboard"] if missing else []
                words += [f"{', '.join(unasked)} should not"] if unasked else []
                yield Finding(
                    RULE,
                    f"flight {flown.flight.flight_id}: {'; '.join(words)}",
                    len(missing) + len(unasked),
                    "people",
                    (("flight", flown.flight.flight_id),),
                )
