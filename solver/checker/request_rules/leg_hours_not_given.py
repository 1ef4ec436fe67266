"""Leg hours not given: of each leg that is walked the hours are given, or can be computed.

For each leg: directions in which it is walked and in which its hours are neither given nor
follow from distance and ascent = 0. The amount is in directions.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.hours import trip_hours
from solver.plan import Finding

RULE = "leg_hours_not_given"


def leg_hours_not_given(facts: Facts) -> Iterator[Finding]:
    """Legs whose hours nobody knows."""
    unknown: dict[str, set[str]] = {}
    for trip in facts.timeline.trips:
        if trip_hours(facts.problem, trip) is None:
            unknown.setdefault(trip.leg.leg_id, set()).add(trip.direction.value)
    for leg_id, directions in unknown.items():
        words = " and ".join(sorted(directions, reverse=True))
        yield Finding(
            RULE,
            f"leg {leg_id}: the hours {words} are not given and do not follow from distance and "
            "ascent, so the length of its days is not checked",
            len(directions),
            "directions",
            (("leg", leg_id),),
            (f"give hours {words} of leg {leg_id}, or its distance and ascent",),
        )
