"""First load within plan: on the way out from the start, loads <= a share of their caps.

For each trip outward from the start place, with q = `first_load_percent`: pack, gross <= q x
its cap; pack and sled together <= q x the load limit of who has one; and where a sled is hauled:
sled, gross <= q x the hauler's sled cap on the leg, and both together <= q x the total cap,
unless that cap is waived. Shares are rounded down.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.loads import Burden
from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import counts_total_cap, limited_g, sled_cap_g
from solver.checker.queries.telling import Where, carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.problem import Direction, Problem, Trip
from solver.quantities import share_down

RULE = "first_load_within_plan"


def first_load_within_plan(replay: Replay) -> Iterator[Finding]:
    """Loads from the start that leave too little in hand, by person, trip and cap."""
    percent = replay.facts.problem.rules.whole("first_load_percent")
    for record in replay.records:
        trip = record.trip
        if trip.from_place != replay.facts.problem.start_place:
            continue
        if trip.direction is not Direction.OUTBOUND:
            continue
        for burden in record.burdens:
            for name, where, load_g, cap_g in _loads(replay.facts.problem, burden, trip):
                most_g = share_down(amount=cap_g, percent=percent)
                if load_g > most_g:
                    yield Finding(
                        RULE,
                        f"{name} on {trip_words(trip)}: {kg(load_g)}, {percent} % of its cap is "
                        f"{kg(most_g)}, {kg(load_g - most_g)} over",
                        load_g - most_g,
                        "g",
                        (*trip_where(trip), *where),
                    )


def _loads(problem: Problem, burden: Burden, trip: Trip) -> Iterator[tuple[str, Where, int, int]]:
    """Each load of a person that has a cap: its name, where it is, its gross mass, the cap."""
    caps = burden.person.caps
    pack_cap_g = caps.pack_on(trip.leg.mode, trip.direction)
    yield burden.pack.name, carrier_where(burden.pack), burden.pack_g, pack_cap_g
    if burden.person.load_limit_g is not None:
        limit_where: Where = (("person", burden.person.person_id), ("cap", "load limit"))
        name = f"pack and sled of {burden.person.person_id}"
        yield name, limit_where, limited_g(burden, trip), burden.person.load_limit_g
    if burden.sled is None:
        return
    where_sled = carrier_where(burden.on_sled)
    yield burden.on_sled.name, where_sled, burden.sled_g, sled_cap_g(burden, trip)
    if caps.total_g is not None and counts_total_cap(problem, burden):
        person_id = burden.person.person_id
        both_g = burden.pack_g + burden.sled_g
        where: Where = (("person", person_id), ("cap", "total"))
        yield f"pack and sled of {person_id}", where, both_g, caps.total_g
