"""Hours that people are on the way each day, once for those who go together."""

from __future__ import annotations

from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.checker.queries.hours import trip_hours
from solver.checker.queries.summits import summits


@dataclass(frozen=True, slots=True)
class TravelDay:
    """One day of some people who travel on it; `hours` is None where a trip's are unknown [h]."""

    day: int
    hours: float | None
    to_summit: bool


def read_travel_days(facts: Facts) -> dict[tuple[TravelDay, ...], tuple[str, ...]]:
    """The people by their travel days, in roster order; days without travel are left out."""
    tops = frozenset(summits(facts))
    known = {trip.index: trip_hours(facts.problem, trip) for trip in facts.timeline.trips}
    alike: dict[tuple[TravelDay, ...], tuple[str, ...]] = {}
    for person in facts.problem.roster:
        days: list[TravelDay] = []
        for number in range(1, len(facts.problem.calendar.days) + 1):
            trips = [
                trip
                for trip in facts.timeline.trips
                if trip.day == number and person.person_id in trip.person_ids
            ]
            if trips:
                hours = [known[trip.index] for trip in trips]
                given = [h for h in hours if h is not None]
                total = sum(given) if len(given) == len(hours) else None
                days.append(TravelDay(number, total, any(t.to_place in tops for t in trips)))
        key = tuple(days)
        alike[key] = (*alike.get(key, ()), person.person_id)
    return alike
