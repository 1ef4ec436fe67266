"""How much of what somebody lives on stands at places: counted, in night sets, or in mL.

A *worth* says for each unit id what one of it counts; units that it leaves out count nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import Time
from solver.checker.ledger.units import UnitKind
from solver.problem import NeedKind, Purpose

Worth = Mapping[str, int]


def is_listed(facts: Facts, purpose: Purpose) -> bool:
    """Whether the gear lists anything of a purpose; missing kit is for rules on the request."""
    return any(item.purpose is purpose for item in facts.problem.gear)


def pieces(facts: Facts, purpose: Purpose) -> Worth:
    """Each unit of a purpose counts one."""
    return {
        item.unit_id: 1
        for item in facts.problem.gear
        if item.purpose is purpose and item.need.kind is not NeedKind.WORN
    }


def shelter_places(facts: Facts) -> Worth:
    """Each shelter counts the people whom it covers."""
    return {
        item.unit_id: item.shelter_places
        for item in facts.problem.gear
        if item.purpose is Purpose.SHELTER and item.need.kind is not NeedKind.WORN
    }


def night_sets(facts: Facts, cook_group_id: str) -> Worth:
    """Each bag of a cook group counts its night sets, whichever they are."""
    return {
        night_set.unit_id: night_set.sets_per_bag
        for night_set in facts.problem.night_sets
        if night_set.cook_group_id == cook_group_id
    }


def fuel_ml(facts: Facts, night: int, cook_group_id: str | None = None) -> Worth:
    """Each full or open container counts what is in it after the night of a day [mL].

    Of one cook group, or of all together where none is named.
    """
    worth: dict[str, int] = {}
    for unit_id, unit in facts.units.items():
        if cook_group_id not in {None, unit.cook_group_id}:
            continue
        if unit.kind is UnitKind.FULL:
            worth[unit_id] = unit.content_ml
        elif unit.kind is UnitKind.OPEN and (unit_id, night) in facts.open_ml:
            worth[unit_id] = facts.open_ml[unit_id, night]
    return worth


def held(replay: Replay, worth: Worth, places: Collection[str], time: Time) -> int:
    """What the units standing at some places at a time are worth, what happens then included."""
    total = 0
    for unit_id, each in worth.items():
        counts = replay.courses[unit_id].at(time)
        for place_id in places:
            total += each * counts.get(place_id, 0)
    return total


def held_before(replay: Replay, worth: Worth, place_id: str, time: Time) -> int:
    """The same at one place just before a time."""
    return sum(
        each * replay.courses[unit_id].before(time).get(place_id, 0)
        for unit_id, each in worth.items()
    )


def in_hand(worth: Worth, counts: Mapping[str, int]) -> int:
    """What some counted units are worth."""
    return sum(each * counts.get(unit_id, 0) for unit_id, each in worth.items())


def worn_by(facts: Facts, purpose: Purpose, people: Collection[str]) -> int:
    """How many units of a purpose are worn by some people, in whole or in part theirs [1]."""
    return sum(
        item.count
        for item in facts.problem.gear
        if item.purpose is purpose
        and item.need.kind is NeedKind.WORN
        and not facts.needs.people_of(item).isdisjoint(people)
    )
