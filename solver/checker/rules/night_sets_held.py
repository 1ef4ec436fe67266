"""Night sets held: bags at the place x sets a bag >= people of the cook group who sleep there."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.plan import Finding

RULE = "night_sets_held"


def night_sets_held(replay: Replay) -> Iterator[Finding]:
    """Night sets that a cook group lacks where it sleeps."""
    for meal in replay.facts.meals:
        night_set = meal.night_set
        time = after_night(replay.facts.night(meal.day))
        for shortage in replay.courses[night_set.unit_id].shortages:
            event = shortage.event
            if event.leg is not None or (event.time, event.place_id) != (time, meal.place_id):
                continue
            missing = meal.people - shortage.there * night_set.sets_per_bag
            yield Finding(
                RULE,
                f"cook group {meal.cook_group_id} on the night of day {meal.day} at "
                f"{meal.place_id}: {meal.people} night sets {night_set.set_id} needed, "
                f"{meal.people - missing} there, {missing} too few",
                missing,
                "night sets",
                (("day", meal.day), ("place", meal.place_id), ("unit", night_set.unit_id)),
            )
