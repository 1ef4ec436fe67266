"""Kitchen for each group: stoves and pots at a camp >= kitchens whose people sleep there.

Each night, before anything is used; stoves and pots are each asked for where any is listed.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import Time, after_night
from solver.checker.queries.holdings import held_before, pieces
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.telling import runs
from solver.plan import Finding
from solver.problem import Purpose

RULE = "kitchen_for_each_group"


def kitchen_for_each_group(replay: Replay) -> Iterator[Finding]:
    """Nights on which a camp has fewer stoves or pots than cook groups, in runs."""
    groups: dict[str, dict[int, int]] = {}
    guests = {g.cook_group_id for g in replay.facts.problem.cook_groups if g.kitchen_of}
    for meal in replay.facts.meals:
        if meal.cook_group_id in guests:
            continue
        at_place = groups.setdefault(meal.place_id, {})
        at_place[meal.day] = at_place.get(meal.day, 0) + 1
    for purpose, name in ((Purpose.STOVE, "stoves"), (Purpose.POT, "pots")):
        if not is_listed(replay.facts, purpose):
            continue
        worth = pieces(replay.facts, purpose)
        for place_id, needed in groups.items():
            missing = [
                (day, count - held_before(replay, worth, place_id, _time(replay, day)))
                for day, count in needed.items()
            ]
            for run in runs(missing):
                yield Finding(
                    RULE,
                    f"{place_id} on the {run.words}: {needed[run.first_day]} cook groups sleep "
                    f"there, {run.amount} {name} too few",
                    run.amount,
                    "units",
                    (*run.where, ("place", place_id), ("kind", purpose.value)),
                )


def _time(replay: Replay, day: int) -> Time:
    return after_night(replay.facts.night(day))
