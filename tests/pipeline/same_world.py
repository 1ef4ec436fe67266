"""Worlds made from another world by a change whose effect on the least peak is known."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any

from solver.problem import (
    Caps,
    Direction,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    Person,
    Place,
    Problem,
    Visit,
    Waste,
)


def _mapped(part: Any, names: Mapping[str, str]) -> Any:
    """A part of a problem with every id replaced that `names` knows."""
    if is_dataclass(part) and not isinstance(part, type):
        changes = {f.name: _mapped(getattr(part, f.name), names) for f in fields(part) if f.init}
        return replace(part, **changes)
    if isinstance(part, tuple):
        return tuple(_mapped(entry, names) for entry in part)
    if isinstance(part, str) and not isinstance(part, Enum):
        return names.get(part, part)
    return part


def own_ids(problem: Problem) -> set[str]:
    """Ids of people, teams, groups, sets, containers, sleds and items, not of places."""
    found = {p.person_id for p in problem.roster} | {p.rope_team_id for p in problem.roster}
    found |= {g.cook_group_id for g in problem.cook_groups}
    found |= {s.set_id for s in problem.night_sets}
    found |= {c.container_id for g in problem.cook_groups for c in g.containers}
    found |= {s.sled_id for s in problem.sleds}
    return found | {i.item_id for i in problem.gear}


def renamed(problem: Problem) -> Problem:
    """The same world under other names, which sort in the opposite order."""
    ids = own_ids(problem) | {p.place_id for p in problem.route.places}
    ids |= {leg.leg_id for leg in problem.route.legs}
    order = sorted(ids)
    return _mapped(problem, {old: f"n{len(order) - k:02}" for k, old in enumerate(order)})


def reordered(problem: Problem) -> Problem:
    """The same world with people, things, sleds, sets and reserves listed backwards."""
    return replace(
        problem,
        roster=problem.roster[::-1],
        gear=problem.gear[::-1],
        sleds=problem.sleds[::-1],
        cook_groups=problem.cook_groups[::-1],
        night_sets=problem.night_sets[::-1],
        reserves=problem.reserves[::-1],
    )


def with_even_fuel(problem: Problem) -> Problem:
    """A world whose masses are whole multiples whatever is burnt: 1 g/mL, one sack a stay."""
    waste = replace(problem.waste, trash_sack_g=10**6, human_waste_sack_g=10**6)
    return replace(problem, fuel_density_g_per_l=1000, waste=waste)


def scaled(problem: Problem, factor: int) -> Problem:
    """A world of `with_even_fuel` in which everything weighs and holds `factor` times as much.

    Fuel keeps its volume and gets denser, so that nights are cooked on the same containers.
    """

    def person_caps(caps: Caps) -> Caps:
        return Caps(
            pack_g=caps.pack_g * factor,
            sled_g=caps.sled_g * factor,
            total_g=None if caps.total_g is None else caps.total_g * factor,
            pack_by_leg=tuple((m, d, g * factor) for m, d, g in caps.pack_by_leg),
        )

    def grown(part: Any, *names: str) -> Any:
        return replace(part, **{name: getattr(part, name) * factor for name in names})

    def person_grown(person: Person) -> Person:
        limit_g = person.load_limit_g
        return grown(
            replace(
                person,
                caps=person_caps(person.caps),
                load_limit_g=None if limit_g is None else limit_g * factor,
            ),
            "pack_volume_ml",
            "water_g",
            "first_lunch_g",
        )

    return replace(
        problem,
        roster=tuple(person_grown(person) for person in problem.roster),
        sleds=tuple(grown(s, "tare_g", "mass_limit_g", "volume_ml") for s in problem.sleds),
        gear=tuple(grown(i, "mass_g", "volume_ml") for i in problem.gear),
        night_sets=tuple(
            grown(s, "gross_g", "packaging_g", "lunch_g", "volume_ml") for s in problem.night_sets
        ),
        cook_groups=tuple(
            replace(g, containers=tuple(grown(c, "tare_g", "volume_ml") for c in g.containers))
            for g in problem.cook_groups
        ),
        waste=grown(problem.waste, "waste_g_per_person_night"),
        fuel_density_g_per_l=problem.fuel_density_g_per_l * factor,
    )


def with_caps(problem: Problem, change: Callable[[int], int]) -> Problem:
    """A world in which every cap of the first person is changed."""
    first, *others = problem.roster
    caps = Caps(
        pack_g=change(first.caps.pack_g),
        sled_g=change(first.caps.sled_g),
        total_g=None if first.caps.total_g is None else change(first.caps.total_g),
        pack_by_leg=tuple((m, d, change(g)) for m, d, g in first.caps.pack_by_leg),
    )
    return replace(problem, roster=(replace(first, caps=caps), *others))


def with_useless_things(problem: Problem) -> Problem:
    """A world with clothes on the body, a cap for a mode no leg has, and an unvisited place."""
    clothes = Item("clothes", 4000, 9000, Need(NeedKind.WORN), owner_id="p1")
    places = (*problem.route.places, Place("aside", 1900))
    legs = (*problem.route.legs, Leg("aside", "a", "aside", LegMode.SUMMIT))
    roster = tuple(
        replace(
            p,
            caps=replace(
                p.caps, pack_by_leg=(*p.caps.pack_by_leg, (LegMode.SUMMIT, Direction.OUTBOUND, 1))
            ),
        )
        for p in problem.roster
    )
    return replace(
        problem,
        gear=(*problem.gear, clothes),
        route=replace(problem.route, places=places, legs=legs),
        roster=roster,
    )


def with_one_more(problem: Problem) -> Problem:
    """A world with one more shared thing to be where everybody sleeps on every night."""
    more = Item("more", 400, 500, Need(NeedKind.EVERY_NIGHT), rope_team_id="r1")
    return replace(problem, gear=(*problem.gear, more))


def counted_singly(problem: Problem) -> Problem:
    """The same world with every item that counts two listed as two items."""
    gear = []
    for item in problem.gear:
        gear += [replace(item, item_id=f"{item.item_id}-{n}", count=1) for n in range(item.count)]
    return replace(problem, gear=tuple(gear))


def eaten_singly(problem: Problem) -> Problem:
    """A world with one set in each bag, as many as are needed, and no margin to be rounded."""
    sets = tuple(replace(s, sets_per_bag=1, bag_count=None) for s in problem.night_sets)
    return replace(problem, night_sets=sets, fuel_margin_percent=0)


def with_guests(problem: Problem) -> Problem:
    """A world of `eaten_singly` where the last of each group has bags alone, of the same sets."""
    groups, sets, reserves = [*problem.cook_groups], [*problem.night_sets], [*problem.reserves]
    guests = {}
    for group in problem.cook_groups:
        *others, last = problem.members(group.cook_group_id)
        if others:
            name = f"{group.cook_group_id}+alone"
            guests[last.person_id] = name
            groups.append(
                replace(group, cook_group_id=name, containers=(), kitchen_of=group.cook_group_id)
            )
            for listed in (sets, reserves):
                listed += [
                    replace(each, cook_group_id=name)
                    for each in listed
                    if each.cook_group_id == group.cook_group_id
                ]
    roster = tuple(
        replace(p, cook_group_id=guests.get(p.person_id, p.cook_group_id)) for p in problem.roster
    )
    return replace(
        problem,
        roster=roster,
        cook_groups=tuple(groups),
        night_sets=tuple(sets),
        reserves=tuple(reserves),
    )


def without_trash(problem: Problem) -> Problem:
    """A world that leaves nothing behind, so that two parties share no sacks."""
    sets = tuple(replace(s, packaging_g=0) for s in problem.night_sets)
    return replace(problem, waste=Waste(), night_sets=sets)


def doubled(problem: Problem) -> Problem:
    """Two of the same party on the same calendar, each with all of its things."""
    twin = _mapped(problem, {name: f"{name}-twin" for name in own_ids(problem)})
    days = tuple(
        replace(
            day,
            visits=tuple(
                Visit(one.rope_team_ids + two.rope_team_ids, one.places)
                for one, two in zip(day.visits, twin_day.visits, strict=True)
            ),
        )
        for day, twin_day in zip(problem.calendar.days, twin.calendar.days, strict=True)
    )
    return replace(
        problem,
        calendar=replace(problem.calendar, days=days),
        **{
            name: getattr(problem, name) + getattr(twin, name)
            for name in ("roster", "sleds", "gear", "cook_groups", "night_sets", "reserves")
        },
    )
