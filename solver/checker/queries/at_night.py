"""Where things that stay with people or at a place stand on a night, whatever the plan."""

from __future__ import annotations

from collections.abc import Collection

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.times import after_night
from solver.checker.queries.worn import worn_among
from solver.problem import Item, NeedKind, Night

NOWHERE = ""
"""A thing whose time at its place has not come, or is over: it may be anywhere."""


def stands_at(facts: Facts, item: Item, night: Night) -> str | None:
    """Where an item must be on a night, None where it may be with any of its people."""
    if item.need.kind is not NeedKind.AT_PLACE:
        return facts.needs.night_place(item, night)
    window = facts.needs.window(item)
    if window is None or not window.begins <= after_night(night) < window.ends:
        return NOWHERE
    return item.need.up_to


def sure_units(facts: Facts, item: Item, night: Night, place_id: str) -> int:
    """How many units of an item are at a place on a night for sure, worn ones included [1]."""
    if item.need.kind is NeedKind.WORN:
        return worn_among(facts, item, night.sleepers_at(place_id))
    return item.count if stands_at(facts, item, night) == place_id else 0


def sleds_at(facts: Facts, night: Night, places: Collection[str]) -> list[str]:
    """The sleds that stand at some places on a night, left where they were last hauled to."""
    stands = {sled.sled_id: facts.problem.start_place for sled in facts.problem.sleds}
    for trip in facts.timeline.trips:
        if trip.moment <= night.moment:
            stands |= dict.fromkeys(trip.sled_ids, trip.to_place)
    return [sled_id for sled_id, place in stands.items() if place in places]
