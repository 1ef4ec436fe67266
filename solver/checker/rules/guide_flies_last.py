"""Guide flies last: of those who leave last by air, one is a guide.

On a guided expedition, guides on the last flight out that has people >= 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.plan import Finding
from solver.problem import FlightDirection

RULE = "guide_flies_last"


def guide_flies_last(replay: Replay) -> Iterator[Finding]:
    """The last flight out with people, where no guide is on it."""
    if not any(person.is_guide for person in replay.facts.problem.roster):
        return
    for side in sides(replay):
        leaving = [flown for flown in side.flights if flown.people]
        if side.direction is not FlightDirection.FLY_OUT or not leaving:
            continue
        if not any(person.is_guide for person in leaving[-1].people):
            flight_id = leaving[-1].flight.flight_id
            yield Finding(
                RULE,
                f"flight {flight_id}, the last out with people: no guide aboard",
                1,
                "guides",
                (("flight", flight_id),),
            )
