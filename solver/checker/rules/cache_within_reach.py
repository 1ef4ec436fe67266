"""Cache within reach: what people fetch, out and back from a camp, is not far off.

For each day on which somebody takes things from a place that stood there alone overnight, and
sleeps where they slept before: hours of that person's way on the day, where known, <=
`cache_reach_hours`. One finding a day and place; the amount is in minutes, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.hours import trip_hours
from solver.plan import Finding
from solver.problem import Trip

RULE = "cache_within_reach"


def cache_within_reach(replay: Replay) -> Iterator[Finding]:
    """Minutes by which the way to a cache and back is too long."""
    most = replay.facts.problem.rules.number("cache_reach_hours")
    found: set[tuple[int, str]] = set()
    for record in replay.records:
        trip = record.trip
        if (trip.day, trip.from_place) in found or not _fetches(replay, trip, record.counts):
            continue
        hours = _way_hours(replay, trip)
        if hours is not None and hours > most + 1e-9:
            found.add((trip.day, trip.from_place))
            camp = replay.facts.night(trip.day).place_of(trip.person_ids[0])
            yield Finding(
                RULE,
                f"day {trip.day}: from {camp} to {trip.from_place} and back is {hours:.1f} h, "
                f"{most:g} h is far for what is fetched",
                math.ceil((hours - most) * 60 - 1e-6),
                "minutes",
                (("day", trip.day), ("place", trip.from_place)),
            )


def _fetches(replay: Replay, trip: Trip, counts: dict[str, int]) -> bool:
    """Whether a trip takes what stood alone, for people who are out and back from a camp."""
    facts = replay.facts
    if trip.from_place == facts.problem.start_place or not 1 < trip.day <= len(
        facts.timeline.nights
    ):
        return False
    before, after = facts.night(trip.day - 1), facts.night(trip.day)
    if before.sleepers_at(trip.from_place):
        return False
    if any(before.place_of(p) != after.place_of(p) for p in trip.person_ids):
        return False
    stood = after_night(before)
    return any(
        replay.courses[unit].at(stood).get(trip.from_place, 0) > 0
        for unit in counts
        if unit in replay.courses
    )


def _way_hours(replay: Replay, trip: Trip) -> float | None:
    person = trip.person_ids[0]
    hours = [
        trip_hours(replay.facts.problem, other)
        for other in replay.facts.timeline.trips
        if other.day == trip.day and person in other.person_ids
    ]
    known = [each for each in hours if each is not None]
    return sum(known) if len(known) == len(hours) else None
