"""Which days visit a summit, and who is on them."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.problem import Day, PlaceKind


def summits(facts: Facts) -> tuple[str, ...]:
    """The summits of the route, in its order."""
    places = facts.problem.route.places
    return tuple(place.place_id for place in places if place.kind is PlaceKind.SUMMIT)


def summit_days(facts: Facts) -> dict[int, frozenset[str]]:
    """The days that visit a summit, in order, each with the people who do."""
    problem = facts.problem
    tops = frozenset(summits(facts))
    days: dict[int, frozenset[str]] = {}
    for number, day in enumerate(problem.calendar.days, start=1):
        people = frozenset(
            person.person_id
            for person in problem.roster
            if not tops.isdisjoint(day.visit_of(person.rope_team_id).places)
        )
        if people:
            days[number] = people
    return days


def summit_visits(facts: Facts) -> Iterator[tuple[int, str, Day]]:
    """Each day with each summit that somebody visits on it, days from 1."""
    for number, day in enumerate(facts.problem.calendar.days, start=1):
        for summit in summits(facts):
            if any(summit in visit.places for visit in day.visits):
                yield number, summit, day
