"""What a plan leaves standing at night where nobody sleeps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night


@dataclass(frozen=True, slots=True)
class Cache:
    """One night of a place, not the start, where nobody sleeps and something stands."""

    day: int
    place_id: str
    units: dict[str, int]


@once
def read_caches(replay: Replay) -> tuple[Cache, ...]:
    """Every night of every such place, in order of days and of the route's places."""
    return tuple(_caches(replay))


def _caches(replay: Replay) -> Iterator[Cache]:
    problem = replay.facts.problem
    for night in replay.facts.timeline.nights:
        slept_at = {place for _, place in night.sleeps_at}
        counts = {u: course.at(after_night(night)) for u, course in replay.courses.items()}
        for place in problem.route.places:
            if place.place_id == problem.start_place or place.place_id in slept_at:
                continue
            units = {u: at[place.place_id] for u, at in counts.items() if at.get(place.place_id)}
            if units:
                yield Cache(night.day, place.place_id, units)
