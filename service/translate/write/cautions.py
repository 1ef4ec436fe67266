"""Cautions: the standing warnings that go with load plans, chosen by what the plan holds."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from solver.problem import Hazard, Leg, LegMode, PlaceKind, Problem, Purpose
from solver.problem.conditions import FuelKind

Names = Mapping[str, str]

_GAS = re.compile(
    r"\b(?:canisters?|cartridges?|(?:iso)?butane|propane|(?<!white )gas)\b", re.IGNORECASE
)
"""Words of things that burn or hold gas."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution, and the problems that it concerns; `names` are those that the request gives."""

    caution_id: str
    text: str
    concerns: Callable[[Problem, Names], bool]


def _asks(concerns: Callable[[Problem], bool]) -> Callable[[Problem, Names], bool]:
    """A question about a problem that needs no names."""
    return lambda problem, _: concerns(problem)


def _always(_problem: Problem, _names: Names) -> bool:
    return True


def _burns_fuel(problem: Problem) -> bool:
    in_gear = any(item.purpose is Purpose.FUEL for item in problem.gear)
    return in_gear or any(night_set.fuel_ml for night_set in problem.night_sets)


def _has_caches(problem: Problem) -> bool:
    """Whether things may stand anywhere alone, to be fetched later: at a camp or a cache site."""
    days = problem.calendar.days
    visited = [{place for v in day.visits for place in v.places} for day in days]
    asleep = [{v.places[-1] for v in day.visits} for day in days]
    later: set[str] = set()
    for there, slept in zip(reversed(visited), reversed(asleep), strict=True):
        if (there & later) - slept - {problem.start_place}:
            return True
        later |= there
    return False


def _burns_liquid(problem: Problem) -> bool:
    return _burns_fuel(problem) and problem.conditions.fuel_kind is not FuelKind.CANISTER_GAS


def _has_canisters(problem: Problem, names: Names) -> bool:
    """Whether gas is burnt, by the kind of fuel or by what stoves, items and containers are called.

    White gas is liquid.
    """
    called = [item.name or item.item_id for item in problem.gear]
    for group in problem.cook_groups:
        called += [names.get(c.unit_id, c.container_id) for c in group.containers]
    in_names = any(_GAS.search(name.replace("-", " ").replace("_", " ")) for name in called)
    return in_names or problem.conditions.fuel_kind is FuelKind.CANISTER_GAS


def _hauls_sleds(problem: Problem) -> bool:
    """Whether a sled may be hauled: there is one, and a leg for sleds is travelled."""
    return bool(problem.sleds) and any(leg.mode is LegMode.SLED for leg in _travelled(problem))


def _goes_high(problem: Problem) -> bool:
    visited = {p for day in problem.calendar.days for v in day.visits for p in v.places}
    return any(p.elevation_m >= 2500 for p in problem.route.places if p.place_id in visited)


def _travelled(problem: Problem) -> list[Leg]:
    """The legs of the route on which anybody travels by the calendar."""
    travelled = {
        frozenset(ends)
        for day in problem.calendar.days
        for visit in day.visits
        for ends in pairwise(visit.places)
    }
    return [
        leg for leg in problem.route.legs if frozenset((leg.from_place, leg.to_place)) in travelled
    ]


def _flies(problem: Problem) -> bool:
    at_a_strip = any(place.kind is PlaceKind.AIRSTRIP for place in problem.route.places)
    return bool(problem.flights) or at_a_strip


def _small_party(problem: Problem) -> bool:
    crevassed = any(leg.crevasse_hazard is not Hazard.LOW for leg in _travelled(problem))
    return len(problem.roster) < 3 and crevassed


def _steep(problem: Problem) -> bool:
    """Whether packs are carried where it is steep: by the leg's mode, or by its angle."""
    steep_deg = problem.rules.number("steep_ground_deg")
    return any(
        leg.mode in (LegMode.FIXED_ROPE, LegMode.SUMMIT) or (leg.steepest_deg or 0) >= steep_deg
        for leg in _travelled(problem)
    )


def _has_reserves(problem: Problem) -> bool:
    return bool(problem.reserves)


def _no_hazard_given(problem: Problem) -> bool:
    return not problem.is_glaciated


NOT_JUDGED = "glacier_rules_not_asked"
"""What is said before all else, wherever a plan is shown."""

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        NOT_JUDGED,
        "No leg gives its crevasse hazard, so no rule of glaciers was asked: ropes and rescue kit, "
        "who travels together, camps, caches, and what is left when a load is lost were not "
        "checked. Give the crevasse hazard of every leg on a glacier.",
        _asks(_no_hazard_given),
    ),
    Caution(
        "who_decides",
        "This plan is arithmetic about loads and stock. It does not say that a route, a slope or "
        "a day is safe. The licensed guide or the leader on the spot decides.",
        _always,
    ),
    Caution(
        "local_rules",
        "The land manager's permit, local rules and the law come before any rule used here.",
        _always,
    ),
    Caution(
        "only_what_was_entered",
        "A valid plan means that the loads keep within the limits that were entered. What was not "
        "entered was not checked.",
        _always,
    ),
    Caution(
        "crevasse_travel",
        "Nothing here says where it is safe to cross a glacier. The leader decides on the spot "
        "about rope, spacing, probing and turning back, with training in rescue.",
        _always,
    ),
    Caution(
        "avalanche",
        "Avalanches and falling ice were not checked. Read the local bulletin if there is one. The "
        "leader decides each day whether to travel a slope.",
        _always,
    ),
    Caution(
        "evacuation",
        "If somebody is hurt or ill, the plan changes at once. The leader decides with the rescue "
        "services and a physician how that person goes down. What is said here about loads comes "
        "after them.",
        _always,
    ),
    Caution(
        "weigh_it",
        "A mass that was not weighed is a guess. Weigh everything and plan again.",
        _always,
    ),
    Caution(
        "caps_are_for_the_day",
        "A load cap is for a person who is well that day. Reduce the load of anybody who is cold, "
        "ill or shivering.",
        _always,
    ),
    Caution(
        "descent",
        "Accidents are common when tired people go down with heavy packs. Check the loads of the "
        "descent before you leave.",
        _always,
    ),
    Caution(
        "food_and_health",
        "The person and a physician decide about food, medication and allergies. A load plan does "
        "not.",
        _always,
    ),
    Caution(
        "paper",
        "Do not depend on a telephone. Print the plan and carry two copies in different packs.",
        _always,
    ),
    Caution(
        "reserves",
        "A reserve is for what nobody expects. If you use any of it, plan again the same day.",
        _asks(_has_reserves),
    ),
    Caution(
        "no_reserves",
        "There is no reserve of food or fuel for a storm at any place.",
        lambda problem, _: not problem.reserves,
    ),
    Caution(
        "fuel_use",
        "Cold, wind and melting snow can multiply fuel use. Measure the fuel that you burn each "
        "day, and plan again with what is left.",
        _asks(_burns_fuel),
    ),
    Caution(
        "carbon_monoxide",
        "A stove in a tent or snow shelter can poison you with carbon monoxide. Cook outside where "
        "you can. Where you cannot, open a low vent and a high vent, and keep both clear of snow. "
        "Never sleep with a stove lit. Follow the maker of the stove.",
        _asks(_burns_fuel),
    ),
    Caution(
        "cold_canisters",
        "Warm a cold gas canister inside your clothing, never at a flame or on a stove.",
        _has_canisters,
    ),
    Caution(
        "fuel_on_skin",
        "Fuel spilt in the cold freezes skin at once. Wear gloves, and keep fuel away from food.",
        _asks(_burns_liquid),
    ),
    Caution(
        "altitude_illness",
        "Altitude illness can kill. Somebody who is ill and does not get better must go down. Ask "
        "a physician. Nothing here is medical advice.",
        _asks(_goes_high),
    ),
    Caution(
        "caches",
        "A cache that is shallow, unmarked or left too long gets lost or raided. Bury it, mark "
        "it, record its position, and take all of it home.",
        _asks(_has_caches),
    ),
    Caution(
        "sleds",
        "A sled can pull its hauler into a crevasse or run over somebody. Rig a second link and a "
        "tail line as the guide teaches.",
        _asks(_hauls_sleds),
    ),
    Caution(
        "small_party",
        "Fewer than three people are on a glacier whose crevasse hazard is not known to be low. A "
        "rescue with so few people is unlikely to work. The leader must decide in writing.",
        _asks(_small_party),
    ),
    Caution(
        "steep_ground",
        "On steep ground, common practice keeps packs below about a third of body mass.",
        _asks(_steep),
    ),
    Caution(
        "aircraft",
        "The pilot decides about mass, about fuel and gas on board, and about whether to fly.",
        _asks(_flies),
    ),
    Caution(
        "waste",
        "All trash and human waste comes down with you unless the land manager allows otherwise.",
        _always,
    ),
)


STANDING = frozenset(c.caution_id for c in CAUTIONS if c.concerns is _always)
"""Cautions that go with every plan; the others are those that a plan calls for."""


def cautions_for(problem: Problem, names: Names = MappingProxyType({})) -> Iterator[Caution]:
    """The cautions that concern a problem: those that it calls for, then the standing ones.

    `names` are the names by unit id that the request gives.
    """
    concerned = [caution for caution in CAUTIONS if caution.concerns(problem, names)]
    return iter(sorted(concerned, key=lambda caution: caution.caution_id in STANDING))
