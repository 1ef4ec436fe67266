"""The world that rules are built on: the problem with its trips, states, cargo and needs."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.cargo import Cargo, list_cargo
from solver.model.clock import Clock, read_clock
from solver.problem import Problem, Timeline, read_timeline
from solver.requirements import Supplies, supplies


@dataclass(frozen=True, slots=True)
class World:
    """Everything that a rule may ask about.

    Lunches are [g] by (day, person); `sleeps` is where by (day, person); `within[p]` are the
    places that p is at or beyond.
    """

    problem: Problem
    timeline: Timeline
    clock: Clock
    needs: Supplies
    cargo: tuple[Cargo, ...]
    lunch_g: dict[tuple[int, str], int]
    sleeps: dict[tuple[int, str], str]
    within: dict[str, frozenset[str]]

    def is_at_or_beyond(self, place_id: str, mark: str) -> bool:
        """Whether a place is `mark` itself or reached only through it."""
        return mark in self.within[place_id]


def build_world(problem: Problem) -> World:
    """Read a problem without faults into a world."""
    timeline = read_timeline(problem)
    clock = read_clock(timeline)
    needs = supplies(problem, timeline)
    lunch_g = {(1, p.person_id): p.first_lunch_g for p in problem.roster}
    for meal in needs.meals:
        for person in problem.members(meal.cook_group_id):
            lunch_g[meal.day + 1, person.person_id] = meal.night_set.lunch_g
    return World(
        problem=problem,
        timeline=timeline,
        clock=clock,
        needs=needs,
        cargo=list_cargo(problem, clock, needs),
        lunch_g=lunch_g,
        sleeps={
            (night.day, person): place
            for night in timeline.nights
            for person, place in night.sleeps_at
        },
        within={
            place.place_id: frozenset(problem.route.way_home(place.place_id))
            for place in problem.route.places
        },
    )
