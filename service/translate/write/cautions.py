"""Cautions: the standing warnings that go with load plans, chosen by what the plan holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from solver.problem import Hazard, LegMode, PlaceKind, Problem, Purpose


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution, and the problems that it concerns."""

    caution_id: str
    text: str
    concerns: Callable[[Problem], bool]


def _always(_: Problem) -> bool:
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


def _has_sleds(problem: Problem) -> bool:
    return bool(problem.sleds)


def _sleeps_high(problem: Problem) -> bool:
    return any(place.elevation_m >= 2500 for place in problem.route.places)


def _flies(problem: Problem) -> bool:
    at_a_strip = any(place.kind is PlaceKind.AIRSTRIP for place in problem.route.places)
    return bool(problem.flights) or at_a_strip


def _small_party(problem: Problem) -> bool:
    crevassed = any(leg.crevasse_hazard is not Hazard.LOW for leg in problem.route.legs)
    return len(problem.roster) < 3 and crevassed


def _steep(problem: Problem) -> bool:
    """Whether packs are carried where it is steep: by the leg's mode, or by its angle."""
    steep_deg = problem.rules.number("steep_ground_deg")
    travelled = {
        frozenset(ends)
        for day in problem.calendar.days
        for visit in day.visits
        for ends in pairwise(visit.places)
    }
    return any(
        leg.mode in (LegMode.FIXED_ROPE, LegMode.SUMMIT) or (leg.steepest_deg or 0) >= steep_deg
        for leg in problem.route.legs
        if frozenset((leg.from_place, leg.to_place)) in travelled
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
        _no_hazard_given,
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
        _has_reserves,
    ),
    Caution(
        "no_reserves",
        "There is no reserve of food or fuel for a storm at any place.",
        lambda problem: not problem.reserves,
    ),
    Caution(
        "fuel_use",
        "Cold, wind and melting snow can multiply fuel use. Measure the fuel that you burn each "
        "day, and plan again with what is left.",
        _burns_fuel,
    ),
    Caution(
        "carbon_monoxide",
        "A stove in a tent or snow shelter can poison you with carbon monoxide. Cook outside where "
        "you can. Where you cannot, open a low vent and a high vent, and keep both clear of snow. "
        "Never sleep with a stove lit. Follow the maker of the stove.",
        _burns_fuel,
    ),
    Caution(
        "cold_canisters",
        "Warm a cold gas canister inside your clothing, never at a flame or on a stove.",
        _burns_fuel,
    ),
    Caution(
        "fuel_on_skin",
        "Fuel spilt in the cold freezes skin at once. Wear gloves, and keep fuel away from food.",
        _burns_fuel,
    ),
    Caution(
        "altitude_illness",
        "Altitude illness can kill. Somebody who is ill and does not get better must go down. Ask "
        "a physician. Nothing here is medical advice.",
        _sleeps_high,
    ),
    Caution(
        "caches",
        "A cache that is shallow, unmarked or left too long gets lost or raided. Bury it, mark "
        "it, record its position, and take all of it home.",
        _has_caches,
    ),
    Caution(
        "sleds",
        "A sled can pull its hauler into a crevasse or run over somebody. Rig a second link and a "
        "tail line as the guide teaches.",
        _has_sleds,
    ),
    Caution(
        "small_party",
        "Fewer than three people are on a glacier whose crevasse hazard is not known to be low. A "
        "rescue with so few people is unlikely to work. The leader must decide in writing.",
        _small_party,
    ),
    Caution(
        "steep_ground",
        "On steep ground, common practice keeps packs below about a third of body mass.",
        _steep,
    ),
    Caution(
        "aircraft",
        "The pilot decides about mass, about fuel and gas on board, and about whether to fly.",
        _flies,
    ),
    Caution(
        "waste",
        "All trash and human waste comes down with you unless the land manager allows otherwise.",
        _always,
    ),
)


STANDING = frozenset(c.caution_id for c in CAUTIONS if c.concerns is _always)
"""Cautions that go with every plan; the others are those that a plan calls for."""


def cautions_for(problem: Problem) -> Iterator[Caution]:
    """The cautions that concern a problem: those that it calls for, then the standing ones."""
    concerned = [caution for caution in CAUTIONS if caution.concerns(problem)]
    return iter(sorted(concerned, key=lambda caution: caution.caution_id in STANDING))
