"""Where each cook group sleeps."""

from __future__ import annotations

from collections.abc import Sequence

from service.translate.read.menu_types import SleptAt
from solver.problem import (
    Calendar,
    Person,
)


def places_slept_at(people: Sequence[Person], calendar: Calendar) -> SleptAt:
    """Where each cook group sleeps, as its first member's rope team does."""
    teams: dict[str, str] = {}
    for person in people:
        teams.setdefault(person.cook_group_id, person.rope_team_id)
    return {
        group: tuple(
            dict.fromkeys(
                visit.places[-1]
                for day in calendar.days[:-1]
                for visit in day.visits
                if team in visit.rope_team_ids and visit.places
            )
        )
        for group, team in teams.items()
    }
