"""What is other in a new plan for people who know the old one: by day and person."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from solver.plan import Load, Plan, TripLoads
from solver.problem import Problem


@dataclass(frozen=True, slots=True)
class ChangedLoad:
    """What one person has on a trip to come and did not have before, and the other way round.

    `more` and `fewer` are (unit id, count). A trip that the old plan did not have is `new`.
    """

    day: int
    step: int
    from_place: str
    to_place: str
    person_id: str
    more: tuple[tuple[str, int], ...]
    fewer: tuple[tuple[str, int], ...]
    new: bool = False


def changed_loads(problem: Problem, followed: Plan, planned: Plan) -> tuple[ChangedLoad, ...]:
    """Every load to come that differs from the followed plan's, in the order of the trips.

    The n-th way from one place to another is compared with the n-th of the followed plan, so that
    a plan that waits first is not called another one.
    """
    left = list(followed.trips)
    changed: list[ChangedLoad] = []
    for trip in planned.trips:
        before = _same_way(left, trip)
        if problem.is_over(trip.day):
            continue
        had = {load.person_id: _units(load) for load in before.loads} if before else {}
        for load in trip.loads:
            has, then = _units(load), had.get(load.person_id, Counter())
            if has != then:
                changed.append(
                    ChangedLoad(
                        trip.day,
                        trip.step,
                        trip.from_place,
                        trip.to_place,
                        load.person_id,
                        more=tuple(sorted((has - then).items())),
                        fewer=tuple(sorted((then - has).items())),
                        new=before is None,
                    )
                )
    return tuple(changed)


def _same_way(left: list[TripLoads], trip: TripLoads) -> TripLoads | None:
    """The followed trip that a trip is compared with, taken off those that are left."""
    people = {load.person_id for load in trip.loads}
    for one in left:
        same_way = (one.from_place, one.to_place) == (trip.from_place, trip.to_place)
        if same_way and people & {load.person_id for load in one.loads}:
            left.remove(one)
            return one
    return None


def _units(load: Load) -> Counter[str]:
    held: Counter[str] = Counter()
    for stowed in (*load.pack, *load.sled):
        held[stowed.unit_id] += stowed.count
    return held
