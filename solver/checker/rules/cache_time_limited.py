"""Cache time limited: nothing stands long at a place that nobody visits.

For each place but the start and each gap between days on which somebody is there, with last
day v1 and next day v2: where v2 - v1 > `cache_days`, or nobody comes again, no food, fuel or
gear stands there in between. Poles and wands may, and so may trash and waste in sacks.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.ledger.units import Unit, UnitKind
from solver.checker.queries.left_alone import MARKS
from solver.plan import Finding
from solver.problem import Problem

RULE = "cache_time_limited"


def cache_time_limited(replay: Replay) -> Iterator[Finding]:
    """Places where something waits for somebody too long, each with its days."""
    problem = replay.facts.problem
    limit_days = problem.rules.whole("cache_days")
    for place in problem.route.places:
        if place.place_id == problem.start_place:
            continue
        for left, back in _gaps(problem, place.place_id):
            if back is not None and back - left <= limit_days:
                continue
            time = after_night(replay.facts.night(left))
            count = sum(
                course.at(time).get(place.place_id, 0)
                for unit_id, course in replay.courses.items()
                if _counts(replay.facts.units[unit_id])
            )
            if count:
                until = f"to day {back}" if back is not None else "for good"
                yield Finding(
                    RULE,
                    f"{place.place_id} from day {left} {until}: {count} units left there, "
                    f"somebody must come within {limit_days} days",
                    count,
                    "units",
                    (("day", left), ("place", place.place_id)),
                )


def _counts(unit: Unit) -> bool:
    """Whether the limit counts a unit: not what marks a place or waits to be taken down."""
    marks = unit.item is not None and unit.item.purpose in MARKS
    return not marks and unit.kind is not UnitKind.SACK


def _gaps(problem: Problem, place_id: str) -> Iterator[tuple[int, int | None]]:
    """Days on which somebody is last at a place, each with the next one on which somebody is."""
    visited = [
        number
        for number, day in enumerate(problem.calendar.days, start=1)
        if any(place_id in visit.places for visit in day.visits)
    ]
    yield from ((left, back) for left, back in pairwise(visited) if back > left + 1)
    if visited and visited[-1] < len(problem.calendar.days):
        yield visited[-1], None
