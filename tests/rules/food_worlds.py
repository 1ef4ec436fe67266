"""Worlds about food, fuel and waste: one person or a few with a night set told in full."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from solver.problem import Conditions, Container, CookGroup, NightSet, Problem, Reserve, ReserveKind
from tests.rules.calendar_worlds import told
from tests.rules.worlds import MEAL, RequestCase, asked_alone, on_glacier, person, world

__all__ = ["fed", "hard", "held", "one", "set_of", "soft", "told", "two_groups", "with_nights"]

NIGHTS = "strip-c1 c1-strip"
"""One night, at c1, a thousand metres above the strip."""


def set_of(**changes: Any) -> NightSet:
    """A night set with some of its facts told."""
    return replace(MEAL, **changes)


def fed(days: str = NIGHTS, **changes: Any) -> Problem:
    """One person who eats a set of such facts wherever they sleep."""
    return world(days, night_sets=(set_of(**changes),))


def one(problem: Problem, **changes: Any) -> Problem:
    """The problem with facts of its first person told."""
    first, *others = problem.roster
    return replace(problem, roster=(replace(first, **changes), *others))


def held(problem: Problem, *, place: str = "c1", **changes: Any) -> Problem:
    """The problem with a storm reserve of one night of another set, `spare`."""
    spare = set_of(**{"set_id": "spare", "storm": True, **changes})
    reserve = Reserve(place, "g1", ReserveKind.STORM, 1, "spare")
    return replace(
        problem,
        night_sets=(*problem.night_sets, spare),
        reserves=(*problem.reserves, reserve),
    )


def two_groups(mate_rope: str = "r1", **changes: Any) -> Problem:
    """Two people of two cook groups, the second of which eats a set of such facts."""
    ours = CookGroup("g1", (("strip", "meal"), ("c1", "meal")))
    theirs = CookGroup("g2", (("strip", "meal"), ("c1", "meal")))
    return world(
        NIGHTS,
        people=(person(), person("m2", cook_group_id="g2", rope_team_id=mate_rope)),
        groups=(ours, theirs),
        night_sets=(MEAL, set_of(cook_group_id="g2", **changes)),
    )


def with_nights(problem: Problem, **temperatures_c: float | None) -> Problem:
    """The problem with the temperature of nights told of some places [degC]."""
    places = tuple(
        replace(place, night_temperature_c=temperatures_c[place.place_id])
        if place.place_id in temperatures_c
        else place
        for place in problem.route.places
    )
    return replace(problem, route=replace(problem.route, places=places))


def with_conditions(problem: Problem, **changes: Any) -> Problem:
    """The problem with some conditions told."""
    return replace(problem, conditions=Conditions(**changes))


def with_containers(problem: Problem, *containers: Container) -> Problem:
    """The problem with fuel containers of its only cook group."""
    (group,) = problem.cook_groups
    return replace(problem, cook_groups=(replace(group, containers=containers),))


def _case(
    forbids: bool,
    rule_id: str,
    name: str,
    problem: Problem,
    *amounts: int,
) -> RequestCase:
    return RequestCase(
        name,
        asked_alone(on_glacier(problem), rule_id),
        tuple((rule_id, amount) for amount in amounts),
        solvable=not (forbids and amounts),
    )


hard = partial(_case, True)
soft = partial(_case, False)
