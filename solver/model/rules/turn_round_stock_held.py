"""A cook group that does not turn homeward keeps more than the turn-round stock within reach.

For each group of n people and each night away from a road with L nights after it and no way
home first next day, with t the setting and F the fuel of tonight's sets for all who eat from its
kitchen: night sets where it sleeps tonight and tomorrow, after use ≥ min(t n + 1, L n); fuel there
≥ min(t F + 1, L F) [mL], asked once for each kitchen.
"""

from __future__ import annotations

from solver.model.instance.equipment import burnt_ml, fuel, night_sets, nights_from
from solver.model.instance.world import World
from solver.model.rows import ReachRow
from solver.problem import Direction, PlaceKind


def build(world: World) -> list[ReachRow]:
    """Rows for food, and for fuel where it is burnt."""
    turn = world.problem.rules.whole("turn_round_nights")
    rows = []
    for group in world.problem.cook_groups:
        members = world.problem.members(group.cook_group_id)
        if not members:
            continue
        for night in world.timeline.nights:
            left = nights_from(world, night.day + 1)
            teams = {person.rope_team_id for person in members}
            one = members[0].person_id
            tonight = world.problem.route.place(world.sleeps[night.day, one])
            if tonight.kind is PlaceKind.ROAD_HEAD:
                continue
            if not left or any(_turns_home(world, team, night.day + 1) for team in teams):
                continue
            places = tuple(
                dict.fromkeys((world.sleeps[night.day, one], world.sleeps[night.day + 1, one]))
            )
            state = world.clock.night_event[night.day]
            sets = min(turn * len(members) + 1, left * len(members))
            food = night_sets(world, group.cook_group_id)
            rows.append(ReachRow("turn_round_stock_held", state, places, food, sets))
            night_ml = burnt_ml(world, group, night.day)
            if group.containers and night_ml:
                need_ml = min(turn * night_ml + 1, left * night_ml)
                burnt = fuel(world, state, group.cook_group_id)
                rows.append(ReachRow("turn_round_stock_held", state, places, burnt, need_ml))
    return rows


def _turns_home(world: World, rope_team_id: str, day: int) -> bool:
    """Whether a rope team's first trip of a day leads homeward."""
    people = {p.person_id for p in world.problem.roster if p.rope_team_id == rope_team_id}
    for trip in world.timeline.trips:
        if trip.day == day and not people.isdisjoint(trip.person_ids):
            return trip.direction is Direction.HOMEWARD
    return False
