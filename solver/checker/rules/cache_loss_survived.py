"""Cache loss survived: without any one unguarded place on its way home, a group can still live.

After each night, with L nights still to come, n people and c = `cache_loss_nights`, for each
place on the way home from where a cook group sleeps where nobody sleeps: night sets of the group
at its camp and on its way home but for that place >= min(c, L) n, and fuel likewise
>= min(c, L) x the fuel of tonight's sets of all who eat from its kitchen, before the margin.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.meals import Meal
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import fuel_ml, held, night_sets
from solver.checker.queries.kitchens import burnt_for
from solver.checker.queries.telling import litres, runs
from solver.plan import Finding
from solver.problem import CookGroup

RULE = "cache_loss_survived"

Missing = dict[tuple[str, str], list[tuple[int, int]]]
"""What is missing each night, by camp and by the place whose loss leaves too little."""


def cache_loss_survived(replay: Replay) -> Iterator[Finding]:
    """Nights on which a cook group depends on a store that nobody guards, in runs."""
    facts = replay.facts
    for group in facts.problem.cook_groups:
        sets = night_sets(facts, group.cook_group_id)
        food: Missing = {}
        fuel: Missing = {}
        for meal in facts.meals:
            if meal.cook_group_id != group.cook_group_id:
                continue
            nights = _nights(replay, meal)
            worth = fuel_ml(facts, meal.day, group.cook_group_id)
            for place_id, left in _ways_left(replay, meal):
                at = meal.place_id, place_id
                for missing, each, needed in (
                    (food, sets, nights * meal.people),
                    (fuel, worth, nights * burnt_for(facts, meal)),
                ):
                    time = after_night(facts.night(meal.day))
                    short = needed - held(replay, each, left, time)
                    missing.setdefault(at, []).append((meal.day, short))
        yield from _findings(group, food, "night sets")
        yield from _findings(group, fuel, "mL")


def _nights(replay: Replay, meal: Meal) -> int:
    asked = replay.facts.problem.rules.whole("cache_loss_nights")
    return min(asked, len(replay.facts.timeline.nights) - meal.day)


def _ways_left(replay: Replay, meal: Meal) -> Iterator[tuple[str, list[str]]]:
    """Each place on the way home where nobody sleeps, and the way without it."""
    way = replay.facts.problem.route.way_home(meal.place_id)
    occupied = {place for _, place in replay.facts.night(meal.day).sleeps_at}
    for place_id in way[1:]:
        if place_id not in occupied:
            yield place_id, [place for place in way if place != place_id]


def _findings(group: CookGroup, missing: Missing, unit: str) -> Iterator[Finding]:
    for (camp, place_id), lacking in missing.items():
        for run in runs(lacking):
            short = f"{litres(run.amount)} of fuel" if unit == "mL" else f"{run.amount} night sets"
            yield Finding(
                RULE,
                f"cook group {group.cook_group_id} on the {run.words} at {camp}: were all at "
                f"{place_id} lost, {short} too little would be left on its way home",
                run.amount,
                unit,
                (
                    *run.where,
                    ("place", camp),
                    ("lost_place", place_id),
                    ("cook_group", group.cook_group_id),
                ),
            )
