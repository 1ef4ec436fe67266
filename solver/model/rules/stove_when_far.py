"""A party far from camp has a stove, a pot and fuel with it.

For each trip whose further end is more hours from the camps of the party's day than the
setting: stoves on it ≥ 1, pots ≥ 1, fuel ≥ people × setting [mL].
"""

from __future__ import annotations

from itertools import pairwise

from solver.model.instance.equipment import fuel, is_listed, units_of
from solver.model.instance.world import World
from solver.model.rows import SomeRideRow
from solver.problem import Purpose, Trip


def build(world: World) -> list[SomeRideRow]:
    """Rows for each trip that leads far away; none where the hours of a leg are not known."""
    rules = world.problem.rules
    rows = []
    for trip in world.timeline.trips:
        away = hours_away(world, trip)
        if away is None or away <= rules.number("away_hours"):
            continue
        state = world.clock.trip_event[trip.index] - 1
        need_ml = len(trip.person_ids) * rules.whole("away_fuel_ml")
        wanted = [
            (units_of(world, purpose), 1)
            for purpose in (Purpose.STOVE, Purpose.POT)
            if is_listed(world, purpose)
        ]
        if need_ml:
            wanted.append((fuel(world, state), need_ml))
        rows += [SomeRideRow("stove_when_far", trip.index, terms, n) for terms, n in wanted]
    return rows


def hours_away(world: World, trip: Trip) -> float | None:
    """How far a trip's further end is from the nearer of the day's two camps [h]."""
    day = world.problem.calendar.days[trip.day - 1]
    places = day.visit_of(world.problem.person(trip.person_ids[0]).rope_team_id).places
    ends = []
    for place_id in (trip.from_place, trip.to_place):
        hours = [_hours(world, camp, place_id) for camp in (places[0], places[-1])]
        if None in hours:
            return None
        ends.append(min(h for h in hours if h is not None))
    return max(ends)


def _hours(world: World, start: str, end: str) -> float | None:
    route = world.problem.route
    total = 0.0
    for one, other in pairwise(route.path(start, end)):
        leg = route.leg_between(one, other)
        hours = leg.hours_outbound if leg.from_place == one else leg.hours_homeward
        if hours is None:
            return None
        total += hours
    return total
