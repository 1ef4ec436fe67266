"""Which days visit a summit, and who is on them."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.problem import PlaceKind


def summit_days(facts: Facts) -> dict[int, frozenset[str]]:
    """The days that visit a summit, in order, each with the people who do."""
    problem = facts.problem
    summits = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    days: dict[int, frozenset[str]] = {}
    for number, day in enumerate(problem.calendar.days, start=1):
        people = frozenset(
            person.person_id
            for person in problem.roster
            if not summits.isdisjoint(day.visit_of(person.rope_team_id).places)
        )
        if people:
            days[number] = people
    return days
