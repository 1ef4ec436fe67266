"""What a plan leaves standing at night where nobody sleeps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.ledger.units import UnitKind
from solver.problem import CookGroup


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


def night_sets(replay: Replay, group: CookGroup, units: dict[str, int]) -> int:
    """How many of a cook group's night sets are among some units [night sets]."""
    return sum(
        units.get(s.unit_id, 0) * s.sets_per_bag
        for s in replay.facts.problem.night_sets
        if s.cook_group_id == group.cook_group_id
    )


def fuel_ml(replay: Replay, group: CookGroup, units: dict[str, int], day: int) -> int:
    """How much of a cook group's fuel is in some units after the night of a day [mL]."""
    total = 0
    for unit_id, count in units.items():
        unit = replay.facts.units[unit_id]
        if unit.cook_group_id != group.cook_group_id:
            continue
        if unit.kind is UnitKind.FULL:
            total += count * unit.content_ml
        elif unit.kind is UnitKind.OPEN:
            total += count * replay.facts.open_ml.get((unit_id, day), 0)
    return total


def everywhere(replay: Replay, day: int) -> dict[str, int]:
    """How many of each unit stand anywhere after the night of a day."""
    time = after_night(replay.facts.night(day))
    return {u: sum(course.at(time).values()) for u, course in replay.courses.items()}
