"""Nights that eat another set than their place's, where that one is used up and others are left."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from solver.problem import NightSet, Problem, Timeline
from solver.requirements import NightMeal, supplies


def eat_what_is_left(problem: Problem, timeline: Timeline) -> Problem:
    """The problem with other sets on as many nights as sets would be short.

    The first nights to come give way, to storm sets before others; sets that reserves still hold
    are left alone. Needs a history with its standing filled in.
    """
    history = problem.history
    if history is None:
        return problem
    needs = supplies(problem, timeline)
    spare: Counter[str] = Counter()
    for stands in history.standing:
        spare[stands.unit_id] += stands.count
    to_come = [meal for meal in needs.meals if meal.day > history.nights]
    for meal in to_come:
        spare[meal.night_set.unit_id] -= meal.bags
    for unit_id, bags in _kept(problem).items():
        spare[unit_id] -= bags
    chosen: dict[str, list[tuple[int, str]]] = {}
    for meal in to_come:
        if spare[meal.night_set.unit_id] < 0:
            other = _other(problem, meal, spare)
            if other is not None:
                spare[meal.night_set.unit_id] += meal.bags
                spare[other.unit_id] -= meal.people // other.sets_per_bag
                chosen.setdefault(meal.cook_group_id, []).append((meal.day, other.set_id))
    return replace(
        problem,
        cook_groups=tuple(
            replace(group, set_on=(*group.set_on, *chosen.get(group.cook_group_id, ())))
            for group in problem.cook_groups
        ),
    )


def _kept(problem: Problem) -> Counter[str]:
    """Bags that reserves hold, at most, by unit id."""
    kept: Counter[str] = Counter()
    for reserve in problem.reserves:
        night_set = problem.night_set(reserve.cook_group_id, reserve.set_id)
        people = reserve.people or len(problem.members(reserve.cook_group_id))
        kept[night_set.unit_id] += -(-reserve.nights * people // night_set.sets_per_bag)
    return kept


def _other(problem: Problem, meal: NightMeal, spare: Counter[str]) -> NightSet | None:
    """Another set of the group of which enough is left for a meal, storm sets first."""
    fitting = [
        one
        for one in problem.night_sets
        if one.cook_group_id == meal.cook_group_id
        and meal.people % one.sets_per_bag == 0
        and spare[one.unit_id] >= meal.people // one.sets_per_bag
    ]
    return min(fitting, key=lambda one: (not one.storm, one.set_id), default=None)
