"""What each reserve asks for, night by night."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import Problem, Reserve, ReserveKind, Timeline
from solver.quantities import share_up, units_up


@dataclass(frozen=True, slots=True)
class ReserveNight:
    """What one reserve must hold after one night: people served, bags, and fuel [mL]."""

    reserve: Reserve
    day: int
    people: int
    bags: int
    fuel_ml: int


def reserve_nights(problem: Problem, timeline: Timeline) -> tuple[ReserveNight, ...]:
    """Every night on which each reserve must stand whole."""
    held = []
    for reserve in problem.reserves:
        night_set = problem.night_set(reserve.cook_group_id, reserve.set_id)
        for day, people in _people_by_day(problem, timeline, reserve):
            sets = reserve.nights * people
            held.append(
                ReserveNight(
                    reserve=reserve,
                    day=day,
                    people=people,
                    bags=units_up(amount=sets, per_unit=night_set.sets_per_bag),
                    fuel_ml=share_up(
                        amount=sets * night_set.fuel_ml,
                        percent=100 + problem.fuel_margin_percent,
                    ),
                )
            )
    return tuple(held)


def _people_by_day(problem: Problem, timeline: Timeline, reserve: Reserve) -> list[tuple[int, int]]:
    members = {p.person_id for p in problem.members(reserve.cook_group_id)}
    if reserve.kind is ReserveKind.BASE_WAIT:
        return [(night.day, len(members)) for night in timeline.nights]
    slept = [[place for p, place in night.sleeps_at if p in members] for night in timeline.nights]
    here = [
        (night.day, places.count(reserve.place_id))
        for night, places in zip(timeline.nights, slept, strict=True)
    ]
    if reserve.kind is ReserveKind.STORM:
        return [(day, people) for day, people in here if people]
    if reserve.kind is ReserveKind.EVACUATION:
        most = len(members) if reserve.people is None else reserve.people
        return [(day, min(people, most)) for day, people in here if people]
    first = next((day for day, people in here if people), None)
    if first is None:
        return []
    beyond = {
        place.place_id
        for place in problem.route.places
        if problem.route.is_at_or_beyond(place.place_id, reserve.place_id)
    }
    at_or_beyond = [sum(place in beyond for place in places) for places in slept]
    last = max(n.day for n, people in zip(timeline.nights, at_or_beyond, strict=True) if people)
    most = max(at_or_beyond)
    return [(night.day, most) for night in timeline.nights if first <= night.day <= last]
