"""The way down of a party that leaves: its days, and how a person on a litter is hauled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from solver.plan import Plan
from solver.problem import Caps, Day, Direction, LegMode, Person, Problem, Visit
from solver.quantities import share_down, units_up

MOST_HAULERS = 8
"""More people than this do not pull one sled; common practice, no source."""


def days_down(
    problem: Problem, followed: Plan, person_id: str, place_id: str, rope_teams: Sequence[str]
) -> tuple[Day, ...]:
    """The days of a person's last way home in the followed plan, from a place on.

    If the plan never goes home through the place, the whole way is one day.
    """
    ways: dict[int, list[str]] = {}
    for trip in followed.trips:
        if person_id in {load.person_id for load in trip.loads}:
            ways.setdefault(trip.day, [trip.from_place]).append(trip.to_place)
    down: list[tuple[str, ...]] = []
    for places in reversed(ways.values()):
        if place_id in places:
            last = len(places) - 1 - places[::-1].index(place_id)
            down.append(tuple(places[last:]))
            break
        down.append(tuple(places))
    else:
        down = [tuple(problem.route.way_home(place_id))]
    ways_down = [way for way in reversed(down) if len(way) > 1]
    return tuple(Day((Visit(tuple(rope_teams), way),), note="down") for way in ways_down)


@dataclass(frozen=True, slots=True)
class Haul:
    """How a person on a litter is pulled along the way home by so many people.

    `share_g` is what each pulls. `cannot` says in words on which legs it cannot be done.
    `more_haulers` is how many more haulers it would take, if more haulers help.
    """

    share_g: int
    cannot: tuple[str, ...]
    more_haulers: int


def haul(problem: Problem, haulers: Sequence[Person], mass_g: int, place_id: str) -> Haul:
    """Litter, sled and person shared evenly by the haulers, leg by leg.

    Each pulls no more than their sled cap times the leg's factor going down. A leg that no sled
    can go on stops them.
    """
    share_g = units_up(amount=mass_g, per_unit=max(len(haulers), 1))
    cannot: list[str] = []
    needed = len(haulers)
    way = problem.route.way_home(place_id)
    for leg in (problem.route.leg_between(a, b) for a, b in pairwise(way)):
        if leg.mode is not LegMode.SLED:
            cannot.append(f"{leg.to_place} to {leg.from_place}: no sled can go there")
            continue
        caps = [
            share_down(amount=p.caps.sled_g, percent=leg.sled_factor_homeward_percent)
            for p in haulers
        ]
        least_g = min(caps, default=0)
        if share_g <= least_g:
            continue
        cannot.append(
            f"{leg.to_place} to {leg.from_place}: each of {len(haulers)} would pull "
            f"{share_g / 1000:.1f} kg, but the weakest may pull only {least_g / 1000:.1f} kg"
        )
        needed = max(needed, units_up(amount=mass_g, per_unit=least_g) if least_g else MOST_HAULERS)
    return Haul(share_g, tuple(cannot), needed - len(haulers))


def caps_with_litter(person: Person, share_g: int) -> Person:
    """A person who pulls a share of a litter: the pack is what the total cap leaves."""
    caps = person.caps
    if caps.total_g is None:
        return person
    room_g = max(caps.total_g - share_g, 1)
    named = (
        (mode, direction, min(cap_g, room_g))
        for mode, direction, cap_g in _with_sled_legs(caps)
        if mode is LegMode.SLED or (mode, direction, cap_g) in caps.pack_by_leg
    )
    return replace(person, caps=replace(caps, pack_by_leg=tuple(named)))


def _with_sled_legs(caps: Caps) -> list[tuple[LegMode, Direction, int]]:
    """The caps by leg with one for sled legs in both directions."""
    known = {(mode, direction): cap_g for mode, direction, cap_g in caps.pack_by_leg}
    for direction in Direction:
        known.setdefault((LegMode.SLED, direction), caps.pack_g)
    return [(mode, direction, cap_g) for (mode, direction), cap_g in known.items()]
