"""The world that rules are built on: the problem with its trips, states, cargo and needs."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.instance.cargo import Cargo, list_cargo
from solver.model.instance.clock import Clock, read_clock
from solver.problem import PlaceKind, Problem, Timeline, read_timeline
from solver.requirements import Supplies, supplies


@dataclass(frozen=True, slots=True)
class World:
    """Everything that a rule may ask about.

    Lunches and water are [g] by (day, person); `sleeps` is where by (day, person); `within[p]`
    are the places that p is at or beyond; `stays[e]` is where everybody is once event e is over.
    """

    problem: Problem
    timeline: Timeline
    clock: Clock
    needs: Supplies
    cargo: tuple[Cargo, ...]
    lunch_g: dict[tuple[int, str], int]
    water_g: dict[tuple[int, str], int]
    sleeps: dict[tuple[int, str], str]
    within: dict[str, frozenset[str]]
    stays: tuple[dict[str, str], ...]

    def is_at_or_beyond(self, place_id: str, mark: str) -> bool:
        """Whether a place is `mark` itself or reached only through it."""
        return mark in self.within[place_id]


def build_world(problem: Problem, timeline: Timeline | None = None) -> World:
    """Read a problem without faults into a world; who has read the timeline hands it on."""
    timeline = timeline or read_timeline(problem)
    clock = read_clock(timeline)
    needs = supplies(problem, timeline)
    lunch_g = {(1, p.person_id): p.first_lunch_g for p in problem.everybody}
    for meal in needs.meals:
        for person in problem.eaters(meal.cook_group_id, meal.day):
            lunch_g[meal.day + 1, person.person_id] = meal.night_set.lunch_g
    return World(
        problem=problem,
        timeline=timeline,
        clock=clock,
        needs=needs,
        cargo=list_cargo(problem, clock, needs),
        lunch_g=lunch_g,
        water_g=_water(problem),
        sleeps={
            (night.day, person): place
            for night in timeline.nights
            for person, place in (*night.sleeps_at, *night.elsewhere)
        },
        within={
            place.place_id: frozenset(problem.route.way_home(place.place_id))
            for place in problem.route.places
        },
        stays=_stays(problem, clock),
    )


def _water(problem: Problem) -> dict[tuple[int, str], int]:
    """What everybody drinks on each day [g]: more on a summit day where that was said."""
    summits = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    water_g: dict[tuple[int, str], int] = {}
    for number, day in enumerate(problem.calendar.days, start=1):
        for person in problem.everybody:
            if not person.presence.travels_on(number):
                continue
            on_summit = not summits.isdisjoint(day.visit_of(person.rope_team_id).places)
            more_g = person.summit_water_g if on_summit else None
            water_g[number, person.person_id] = person.water_g if more_g is None else more_g
    return water_g


def _stays(problem: Problem, clock: Clock) -> tuple[dict[str, str], ...]:
    here = {
        person.person_id: person.presence.place_id
        if person.presence.place_id and person.presence.first_day > 1
        else problem.start_place
        for person in problem.everybody
    }
    ends = {person.person_id: person.presence.last_day for person in problem.left}
    stays = [here]
    for trips in clock.trips_at[1:]:
        for trip in trips:
            here = {p: at for p, at in here.items() if trip.day <= (ends.get(p) or trip.day)}
        here = here | {person: trip.to_place for trip in trips for person in trip.person_ids}
        stays.append(here)
    return tuple(stays)
