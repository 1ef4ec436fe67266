"""Were any one unguarded store on the way home lost, a cook group would still have enough.

For each group of n people at p after a night with L nights left, and each place x on its way
home where nobody sleeps, with c the setting and F the fuel of tonight's sets for all who eat from
its kitchen: night sets of the group at p and on its way home without x ≥ min(c, L) n; fuel there
≥ min(c, L) F [mL], asked once for each kitchen.
"""

from __future__ import annotations

from solver.model.instance.equipment import Terms, burnt_ml, fuel, night_sets, nights_from
from solver.model.instance.world import World
from solver.model.rows import ReachRow
from solver.problem import CookGroup, Night


def build(world: World) -> list[ReachRow]:
    """Rows for food and fuel, for each night, cook group and store that might be lost."""
    rows: list[ReachRow] = []
    for group in world.problem.cook_groups:
        if not world.problem.members(group.cook_group_id):
            continue
        for night in world.timeline.nights:
            state = world.clock.night_event[night.day]
            for terms, at_least in _asked(world, group, night):
                rows += [
                    ReachRow("cache_loss_survived", state, places, terms, at_least)
                    for places in _without_one(world, group, night)
                ]
    return rows


def _asked(world: World, group: CookGroup, night: Night) -> list[tuple[Terms, int]]:
    """What must be left: night sets, and fuel where the group burns any."""
    people = len(world.problem.members(group.cook_group_id))
    most = world.problem.rules.whole("cache_loss_nights")
    nights = min(most, nights_from(world, night.day + 1))
    asked = [(night_sets(world, group.cook_group_id), people * nights)]
    if group.containers:
        state = world.clock.night_event[night.day]
        asked.append(
            (fuel(world, state, group.cook_group_id), nights * burnt_ml(world, group, night.day))
        )
    return [(terms, at_least) for terms, at_least in asked if at_least]


def _without_one(world: World, group: CookGroup, night: Night) -> list[tuple[str, ...]]:
    """The places of a group and its way home, each time without one where nobody sleeps."""
    member = world.problem.members(group.cook_group_id)[0]
    way = world.problem.route.way_home(night.place_of(member.person_id))
    slept = {place for _, place in night.sleeps_at}
    return [tuple(place for place in way if place != lost) for lost in way[1:] if lost not in slept]
