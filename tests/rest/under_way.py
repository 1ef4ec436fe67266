"""Small expeditions that are under way: a plan that was followed, and what happened to it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from random import Random

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Change, History, Problem
from solver.rest.counted import with_counts, with_standing
from tests.pipeline.glacier_worlds import glacier_world
from tests.pipeline.tiny_worlds import tiny_world

QUICK = Limits(wall_seconds=10)


@cache
def followed(kind: str, seed: int) -> tuple[Problem, Plan] | None:
    """A drawn problem and its plan; None where it has none."""
    problem = {"tiny": tiny_world, "glacier": glacier_world}[kind](seed)
    outcome = plan(problem, QUICK)
    return (problem, outcome.plan) if isinstance(outcome, Solved) else None


def moments(problem: Problem) -> list[History]:
    """Every evening but the last, and the morning after it."""
    days = range(1, len(problem.calendar.days))
    return [History(day, after_night) for day in days for after_night in (False, True)]


def at(problem: Problem, history: History, *changes: Change) -> Problem:
    """The problem at a moment, with what was found changed."""
    return replace(problem, history=replace(history, changes=changes))


def drawn_event(problem: Problem, plan: Plan, chance: Random) -> Problem:
    """A moment with up to two losses or moves, now and then fuel burnt and a sled lost."""
    history = chance.choice(moments(problem))
    counted = with_standing(with_counts(replace(problem, history=history), plan), plan)
    standing = counted.history.standing if counted.history is not None else ()
    changes: list[Change] = []
    for _ in range(chance.randint(0, 2)):
        found = chance.choice(standing)
        count = chance.randint(1, found.count)
        changes.append(Change(found.place_id, found.unit_id, -count))
        if chance.random() < 0.3:
            elsewhere = chance.choice(problem.route.places).place_id
            changes.append(Change(elsewhere, found.unit_id, count))
    group = problem.cook_groups[0].cook_group_id if problem.cook_groups else None
    burnt = ((group, chance.choice((1, 50, 300))),) if group and chance.random() < 0.3 else ()
    if problem.sleds and chance.random() < 0.3:
        lost = chance.choice(problem.sleds)
        sleds = (replace(s, last_day=history.day) if s is lost else s for s in problem.sleds)
        problem = replace(problem, sleds=tuple(sleds))
    return replace(problem, history=replace(history, changes=tuple(changes), burnt_ml=burnt))
