"""What the nights to come lack whoever carries what: sets and fuel that nobody has any more."""

from __future__ import annotations

from collections.abc import Iterator

from solver.plan import Finding
from solver.problem import Problem, Timeline
from solver.requirements import supplies


def shortfalls(problem: Problem, timeline: Timeline) -> Iterator[Finding]:
    """Night sets and fuel that the rest uses and that stand nowhere, by cook group.

    Needs a history with its standing filled in. Reserves are not counted: this is about eating
    and melting snow at all.
    """
    history = problem.history
    if history is None:
        return
    needs = supplies(problem, timeline)
    there: dict[str, int] = {}
    for stands in history.standing:
        there[stands.unit_id] = there.get(stands.unit_id, 0) + stands.count
    for night_set in problem.night_sets:
        to_come = [
            meal
            for meal in needs.meals
            if meal.night_set == night_set and meal.day > history.nights
        ]
        short = sum(meal.bags for meal in to_come) - there.get(night_set.unit_id, 0)
        if short > 0:
            sets = short * night_set.sets_per_bag
            yield Finding(
                "night_sets_held",
                f"cook group {night_set.cook_group_id}: the nights to come need "
                f"{sum(meal.people for meal in to_come)} night sets {night_set.set_id}, "
                f"{sets} more than there are anywhere",
                sets,
                "night sets",
                (("cook_group", night_set.cook_group_id), ("unit", night_set.unit_id)),
            )
    for group, burn in zip(problem.cook_groups, needs.burns, strict=True):
        if burn.shortfall_ml > 0:
            yield Finding(
                "fuel_held",
                f"cook group {group.cook_group_id}: the nights to come burn "
                f"{burn.shortfall_ml / 1000:.2f} L more fuel than there is anywhere",
                burn.shortfall_ml,
                "mL",
                (("cook_group", group.cook_group_id),),
            )
