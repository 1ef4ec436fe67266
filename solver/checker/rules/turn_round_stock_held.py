"""Turn round stock held: a cook group short of food or fuel for t nights turns homeward.

After each night but the last, with L nights still to come, n people and t = `turn_round_nights`:
night sets where the group sleeps and where it sleeps next >= min(t n + 1, L n), and fuel there
likewise in mL for the fuel of tonight's sets of all who eat from its kitchen, before the margin.
Not asked where the next day's first trip of any member's rope team is homeward, nor on nights at
a road head.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import fuel_ml, held, night_sets
from solver.checker.queries.kitchens import burnt_for
from solver.checker.queries.telling import litres, runs
from solver.plan import Finding
from solver.problem import CookGroup, Direction, PlaceKind

RULE = "turn_round_stock_held"


def turn_round_stock_held(replay: Replay) -> Iterator[Finding]:
    """Nights after which a cook group goes on with too little to live on, in runs."""
    facts = replay.facts
    for group in facts.problem.cook_groups:
        meals = [m for m in facts.meals if m.cook_group_id == group.cook_group_id]
        sets = night_sets(facts, group.cook_group_id)
        food: dict[str, list[tuple[int, int]]] = {}
        fuel: dict[str, list[tuple[int, int]]] = {}
        for meal, after in pairwise(meals):
            at_road = facts.problem.route.place(meal.place_id).kind is PlaceKind.ROAD_HEAD
            if at_road or _turns_homeward(replay, group, after.day):
                continue
            places = tuple(dict.fromkeys((meal.place_id, after.place_id)))
            time = after_night(facts.night(meal.day))
            left = len(meals) - meal.day
            needed = _needed(replay, left, meal.people)
            short = needed - held(replay, sets, places, time)
            food.setdefault(meal.place_id, []).append((meal.day, short))
            night_ml = burnt_for(facts, meal)
            if group.containers and night_ml:
                worth = fuel_ml(facts, meal.day, group.cook_group_id)
                short = _needed(replay, left, night_ml) - held(replay, worth, places, time)
                fuel.setdefault(meal.place_id, []).append((meal.day, short))
        yield from _findings(group, food, "night sets")
        yield from _findings(group, fuel, "mL")


def _needed(replay: Replay, left: int, a_night: int) -> int:
    """What must be there where each night takes so much and so many nights are left."""
    nights = replay.facts.problem.rules.whole("turn_round_nights")
    return min(nights * a_night + 1, left * a_night)


def _turns_homeward(replay: Replay, group: CookGroup, day: int) -> bool:
    """Whether the first trip of any member's rope team on a day leads homeward."""
    teams = {p.rope_team_id for p in replay.facts.problem.members(group.cook_group_id)}
    first: dict[str, Direction] = {}
    for trip in replay.facts.timeline.trips:
        if trip.day == day:
            for person_id in trip.person_ids:
                team = replay.facts.problem.person(person_id).rope_team_id
                first.setdefault(team, trip.direction)
    return any(first.get(team) is Direction.HOMEWARD for team in teams)


def _findings(
    group: CookGroup, missing: dict[str, list[tuple[int, int]]], unit: str
) -> Iterator[Finding]:
    for place_id, lacking in missing.items():
        for run in runs(lacking):
            short = f"{litres(run.amount)} of fuel" if unit == "mL" else f"{run.amount} night sets"
            yield Finding(
                RULE,
                f"cook group {group.cook_group_id} on the {run.words} at {place_id}: {short} "
                "too little to go on next day",
                run.amount,
                unit,
                (*run.where, ("place", place_id), ("cook_group", group.cook_group_id)),
            )
