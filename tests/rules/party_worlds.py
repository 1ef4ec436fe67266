"""Worlds about parties and what they have: people in rope teams, and things with a purpose."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from solver.problem import Item, Need, NeedKind, Person, Problem, Purpose
from tests.rules.worlds import EVERY_TRIP, MEAL, item, person

WORN = Need(NeedKind.WORN)

MEALS_OF_TWO = (MEAL, replace(MEAL, cook_group_id="g2"))


def thing(purpose: Purpose, need: Need = EVERY_TRIP, **changes: Any) -> Item:
    """A light and small item with a purpose, named after it unless told otherwise."""
    item_id = changes.pop("item_id", purpose.value)
    return replace(item(item_id, need, mass_g=10, volume_ml=10), purpose=purpose, **changes)


def team(rope_team_id: str, *names: str, cook_group_id: str = "g1") -> tuple[Person, ...]:
    """People on one rope; those whose name begins with `guide` are guides."""
    return tuple(
        replace(
            person(name, rope_team_id=rope_team_id, cook_group_id=cook_group_id),
            is_guide=name.startswith("guide"),
        )
        for name in names
    )


THREE = team("r1", "m1", "m2", "m3")
GUIDED = (*team("r1", "guide-1", "c1-1", "c1-2"), *team("r2", "guide-2", "c2-1", "c2-2"))


def in_two_kitchens(problem: Problem) -> Problem:
    """The problem with rope team r2 in a cook group of its own, so that it may sleep elsewhere."""
    roster = tuple(
        replace(p, cook_group_id="g2") if p.rope_team_id == "r2" else p for p in problem.roster
    )
    (group,) = problem.cook_groups
    groups = (group, replace(group, cook_group_id="g2"))
    return replace(problem, roster=roster, cook_groups=groups, night_sets=MEALS_OF_TWO)


def cold(problem: Problem, **night_c: float) -> Problem:
    """The problem with the night temperatures of some places told [°C]."""
    places = tuple(
        replace(place, night_temperature_c=night_c.get(place.place_id, place.night_temperature_c))
        for place in problem.route.places
    )
    return replace(problem, route=replace(problem.route, places=places))
