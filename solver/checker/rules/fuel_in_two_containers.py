"""Fuel in two containers: no one holds more than half of what a cook group has at a new camp.

On the first night of each stay of a cook group that burns fuel, before it is used: the group's
fuel there >= 2 x content of the largest of its kinds of container.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.holdings import fuel_ml, held_before
from solver.checker.replay import Replay
from solver.checker.telling import litres
from solver.checker.times import after_night
from solver.plan import Finding

RULE = "fuel_in_two_containers"


def fuel_in_two_containers(replay: Replay) -> Iterator[Finding]:
    """Arrivals of cook groups at a camp where one container would hold too much of the fuel."""
    facts = replay.facts
    for group in facts.problem.cook_groups:
        slept_at = ""
        for meal in facts.meals:
            if meal.cook_group_id != group.cook_group_id:
                continue
            arrives, slept_at = meal.place_id != slept_at, meal.place_id
            if not (arrives and group.containers and meal.night_set.fuel_ml):
                continue
            needed_ml = 2 * max(container.content_ml for container in group.containers)
            worth = fuel_ml(facts, meal.day - 1, group.cook_group_id)
            time = after_night(facts.night(meal.day))
            missing_ml = needed_ml - held_before(replay, worth, meal.place_id, time)
            if missing_ml > 0:
                yield Finding(
                    RULE,
                    f"cook group {group.cook_group_id} on the night of day {meal.day} at "
                    f"{meal.place_id}: {litres(needed_ml - missing_ml)} of fuel there, "
                    f"{litres(needed_ml)} needed so that no one container holds more than half",
                    missing_ml,
                    "mL",
                    (
                        ("day", meal.day),
                        ("place", meal.place_id),
                        ("cook_group", group.cook_group_id),
                    ),
                )
