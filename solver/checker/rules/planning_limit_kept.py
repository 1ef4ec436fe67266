"""Planning limit kept: nobody's load fraction on any trip is above the planning limit.

For each person, the largest fraction over all their trips <= `planned_load_percent` of the cap.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import load_fraction
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding
from solver.problem import Trip

RULE = "planning_limit_kept"


def planning_limit_kept(replay: Replay) -> Iterator[Finding]:
    """People planned so near to their caps that what was not weighed has no room."""
    limit = 100 * replay.facts.problem.rules.whole("planned_load_percent")
    worst: dict[str, tuple[int, Trip]] = {}
    trips_over: dict[str, int] = {}
    for record in replay.records:
        for burden in record.burdens:
            person_id, fraction = (
                burden.person.person_id,
                load_fraction(replay.facts.problem, burden, record.trip),
            )
            if fraction > limit:
                trips_over[person_id] = trips_over.get(person_id, 0) + 1
                if fraction > worst.get(person_id, (0, record.trip))[0]:
                    worst[person_id] = fraction, record.trip
    for person_id, (fraction, trip) in worst.items():
        others = trips_over[person_id] - 1
        also = f", and on {others} more trips" if others else ""
        yield Finding(
            RULE,
            f"load of {person_id} on {trip_words(trip)}: {fraction / 100:.2f} % of the cap, "
            f"planned is at most {limit // 100} %{also}",
            fraction - limit,
            "1/10000 of the cap",
            (*trip_where(trip), ("person", person_id)),
        )
