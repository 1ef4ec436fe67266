"""How much of what people live on is somewhere: in pieces, night sets, shelter places or mL.

A *worth* says for each unit id what one of it counts; units that it leaves out count nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import Time
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.listed_gear import listed_items
from solver.problem import NeedKind, Purpose

Worth = Mapping[str, int]


def pieces(facts: Facts, purpose: Purpose) -> Worth:
    """Each unit of a purpose counts one."""
    return {
        item.unit_id: 1
        for item in listed_items(facts, purpose)
        if item.need.kind is not NeedKind.WORN
    }


def shelter_places(facts: Facts) -> Worth:
    """Each shelter counts the people whom it covers."""
    return {
        item.unit_id: item.shelter_places
        for item in listed_items(facts, Purpose.SHELTER)
        if item.need.kind is not NeedKind.WORN
    }


def night_sets(facts: Facts, cook_group_id: str) -> Worth:
    """Each bag of a cook group counts its night sets, whichever they are."""
    return {
        night_set.unit_id: night_set.sets_per_bag
        for night_set in facts.problem.night_sets
        if night_set.cook_group_id == cook_group_id
    }


def unopened_ml(facts: Facts, cook_group_id: str | None = None) -> Worth:
    """Each full container counts its content [mL], of one cook group or of all together."""
    return _contents_ml(facts).get(cook_group_id, {})


@once
def _contents_ml(facts: Facts) -> Mapping[str | None, Worth]:
    """The contents of full containers by cook group, and of all together under None [mL]."""
    contents: dict[str | None, dict[str, int]] = {None: {}}
    for unit_id, unit in facts.units.items():
        if unit.kind is UnitKind.FULL:
            contents[None][unit_id] = unit.content_ml
            contents.setdefault(unit.cook_group_id, {})[unit_id] = unit.content_ml
    return contents


def fuel_ml(facts: Facts, night: int, cook_group_id: str | None = None) -> Worth:
    """Each full or open container counts what is in it after the night of a day [mL].

    Of one cook group, or of all together where none is named.
    """
    worth = dict(unopened_ml(facts, cook_group_id))
    for (unit_id, day), left_ml in facts.open_ml.items():
        if day == night and cook_group_id in {None, facts.units[unit_id].cook_group_id}:
            worth[unit_id] = left_ml
    return worth


def held(replay: Replay, worth: Worth, places: Collection[str], time: Time) -> int:
    """What the units standing at some places at a time are worth, what happens then included."""
    total = 0
    for unit_id, each in worth.items():
        counts = replay.courses[unit_id].at(time)
        for place_id in places:
            total += each * counts.get(place_id, 0)
    return total


def held_anywhere(replay: Replay, worth: Worth, time: Time) -> int:
    """The same over all places."""
    return sum(
        each * sum(replay.courses[unit_id].at(time).values()) for unit_id, each in worth.items()
    )


def held_before(replay: Replay, worth: Worth, place_id: str, time: Time) -> int:
    """The same at one place just before a time."""
    return sum(
        each * replay.courses[unit_id].before(time).get(place_id, 0)
        for unit_id, each in worth.items()
    )


def in_hand(worth: Worth, counts: Mapping[str, int]) -> int:
    """What some counted units are worth."""
    return sum(each * counts.get(unit_id, 0) for unit_id, each in worth.items())
