"""The same expeditions on a glacier, so that every rule of the rulebook is asked of them.

People, days, camps, carries and the number of shared pieces stay. Legs tell their hazard, hours
and angle, things what they are good for, camps how cold their nights are and how things left
there are buried. Where the rules ask for a thing that the expedition has not, it takes the place
of a spare piece; the reserves for storm and waiting become as large as they ask. Light jackets,
shells, mitts, goggles and lighters are worn, so that they are in no load.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from solver.problem import (
    CacheSite,
    Day,
    Hazard,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    Person,
    Place,
    PlaceKind,
    Problem,
    Purpose,
    Reserve,
    ReserveKind,
    RuleSettings,
)
from solver.rulebook import setting

_TENT_PLACES, _PEOPLE_PER_GUIDE = 4, 4
_WASTE_ML = 8_000
_WORN = (
    ("light-jacket", Purpose.WARM_JACKET),
    ("shells", Purpose.SHELL_CLOTHING),
    ("mitts", Purpose.MITTS),
    ("goggles", Purpose.EYE_PROTECTION),
    ("lighter", Purpose.LIGHTER),
)
_PURPOSES = {
    "sleeping-bag": Purpose.SLEEPING_BAG,
    "mats": Purpose.SLEEPING_PAD,
    "clothes": Purpose.DRY_LAYER,
    "parka": Purpose.WARM_JACKET,
    "overboots": Purpose.COLD_CLOTHING,
    "tent-body": Purpose.SHELTER,
    "bivy-shelter": Purpose.SHELTER,
    "stove": Purpose.STOVE,
    "pots": Purpose.POT,
    "rope": Purpose.ROPE,
    "rescue-kit": Purpose.RESCUE_KIT,
    "communicator": Purpose.COMMUNICATOR,
    "medical-kit": Purpose.MEDICAL_KIT,
    "drag-tarp": Purpose.DRAG_TARP,
    "shovel": Purpose.SHOVEL,
}
_SPARE_PIECES = ("kitchen-tarp", "battery", "saw", "repair-kit", "tent-pegs", "fixed-line", "wands")
"""Pieces of which there are many, and whose place a thing may take that the rules ask for."""

_HOURS = {
    LegMode.SLED: (4.5, 1.5),
    LegMode.PACK: (4.5, 2.0),
    LegMode.FIXED_ROPE: (5.0, 2.0),
    LegMode.SUMMIT: (6.5, 3.5),
}
_DEGREES = {LegMode.SLED: 12, LegMode.PACK: 28, LegMode.FIXED_ROPE: 42, LegMode.SUMMIT: 38}


@dataclass(frozen=True)
class _Taken:
    """A thing that the rules ask for, in the place of a spare piece."""

    name: str
    mass_g: int
    volume_ml: int
    purpose: Purpose
    team: str | None = None
    need: NeedKind = NeedKind.EVERY_TRIP


def on_glaciers(problem: Problem) -> Problem:
    """An expedition of the benchmarks with all that the rules of glaciers ask to be told."""
    places = tuple(_place(place) for place in problem.route.places)
    legs = tuple(_leg(leg) for leg in problem.route.legs)
    told = replace(
        problem,
        route=replace(problem.route, places=places, legs=legs),
        calendar=replace(problem.calendar, days=tuple(_day(day) for day in problem.calendar.days)),
        roster=tuple(_person(problem, n, p) for n, p in enumerate(problem.roster)),
        reserves=tuple(_reserve(problem, reserve) for reserve in problem.reserves),
        rules=RuleSettings(numbers=(("cache_days", float(len(problem.calendar.days))),)),
    )
    return replace(told, gear=(*_gear(told), *_worn(told)))


def _place(place: Place) -> Place:
    cold_c = -8.0 - (place.elevation_m - 2200) / 150
    cache = CacheSite(1.2, 1, 1.8, 0.5, has_position=True, has_label=True)
    return replace(
        place,
        night_temperature_c=cold_c,
        cache=cache if place.kind is PlaceKind.CAMP else None,
    )


def _leg(leg: Leg) -> Leg:
    up, down = _HOURS[leg.mode]
    hazard = Hazard.HIGH if leg.mode is LegMode.SLED else Hazard.MODERATE
    return replace(
        leg,
        hours_outbound=up,
        hours_homeward=down,
        steepest_deg=_DEGREES[leg.mode],
        crevasse_hazard=hazard,
    )


def _day(day: Day) -> Day:
    summit = any("summit" in visit.places for visit in day.visits)
    return replace(day, start_hour=6.5, turn_round_hour=14.5) if summit else day


def _person(problem: Problem, number: int, person: Person) -> Person:
    guides = math.ceil(len(problem.roster) / _PEOPLE_PER_GUIDE)
    return replace(person, is_guide=number < guides, summit_water_g=2000)


def _reserve(problem: Problem, reserve: Reserve) -> Reserve:
    """A reserve as large as the rules ask."""
    if reserve.kind is ReserveKind.BASE_WAIT:
        return replace(reserve, nights=max(reserve.nights, int(setting("base_wait_nights").value)))
    return reserve


def _gear(problem: Problem) -> Iterator[Item]:
    """All pieces, each with its purpose, and some spare ones changed into what is asked for."""
    wanted = list(_wanted(problem))
    kinds = iter(["satellite messenger", "hand-held radio"] * len(problem.gear))
    for item in problem.gear:
        name = item.item_id.rstrip("0123456789").rstrip("-")
        if item.owner_id is None and name in _SPARE_PIECES and wanted:
            yield _instead(item, wanted.pop(0))
            continue
        yield _with_purpose(item, _PURPOSES.get(name), kinds)
    if wanted:
        raise ValueError(f"no spare piece is left for {', '.join(w.name for w in wanted)}")


def _with_purpose(item: Item, purpose: Purpose | None, kinds: Iterator[str]) -> Item:
    told = replace(item, purpose=purpose)
    match purpose:
        case Purpose.SHELTER:
            return replace(told, shelter_places=_TENT_PLACES)
        case Purpose.COMMUNICATOR:
            return replace(told, communicator_kind=next(kinds))
        case Purpose.RESCUE_KIT:
            # Half of it; the other half is among what takes a spare piece's place.
            return replace(told, mass_g=item.mass_g // 2, volume_ml=item.volume_ml // 2)
        case Purpose.SHOVEL:
            return replace(told, need=Need(NeedKind.EVERY_TRIP))
    return told


def _instead(item: Item, taken: _Taken) -> Item:
    number = item.item_id.rsplit("-", 1)[1]
    return Item(
        item_id=f"{taken.name}-{number}",
        mass_g=taken.mass_g,
        volume_ml=taken.volume_ml,
        need=Need(taken.need),
        rope_team_id=taken.team,
        purpose=taken.purpose,
        shelter_places=_TENT_PLACES if taken.purpose is Purpose.SHELTER else 0,
        capacity_ml=_WASTE_ML if taken.purpose is Purpose.HUMAN_WASTE_CONTAINER else None,
    )


def _wanted(problem: Problem) -> Iterator[_Taken]:
    """What the rules ask for and the expeditions have not, in the order of its urgency."""
    night = NeedKind.EVERY_NIGHT
    teams = dict.fromkeys(person.rope_team_id for person in problem.roster)
    for team in teams:
        members = sum(person.rope_team_id == team for person in problem.roster)
        yield _Taken("rescue-kit", 850, 1_500, Purpose.RESCUE_KIT, team)
        yield _Taken("spare-mitts", 250, 2_500, Purpose.SPARE_MITTS, team)
        yield _Taken("navigation", 250, 500, Purpose.NAVIGATION, team)
        for _ in range(math.ceil(members / _TENT_PLACES) - 1):
            yield _Taken("tent", 4600, 13_000, Purpose.SHELTER, team, night)
    nights = max(len(list(run)) for _, run in groupby(_sleeping_places(problem)))
    litres = setting("human_waste_l_per_person_night").value
    waste_ml = 1000 * litres * nights * len(problem.roster)
    for _ in range(math.ceil(waste_ml / _WASTE_ML)):
        yield _Taken("waste-can", 1100, 8_000, Purpose.HUMAN_WASTE_CONTAINER, None, night)
    yield _Taken("cache-pole", 280, 500, Purpose.MARKER_POLE, None, night)
    yield _Taken("cache-pole", 280, 500, Purpose.MARKER_POLE, None, night)


def _sleeping_places(problem: Problem) -> Iterator[str]:
    for day in problem.calendar.days:
        yield day.visits[0].places[-1]


def _worn(problem: Problem) -> Iterator[Item]:
    for person in problem.roster:
        for name, purpose in _WORN:
            yield Item(
                item_id=name,
                mass_g=400,
                volume_ml=0,
                need=Need(NeedKind.WORN),
                owner_id=person.person_id,
                purpose=purpose,
            )
