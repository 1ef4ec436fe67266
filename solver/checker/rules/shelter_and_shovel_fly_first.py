"""Shelter and shovel fly first: they are aboard with the first people, not before or after.

On the first flight in that has people: shelter places aboard >= people aboard; shovels >= 1;
where the gear has shelters for nights and others for trips, at least one of each. Worn things
come with who wears them.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.strip_kit import aboard
from solver.checker.queries.waiting import waits
from solver.plan import Finding
from solver.problem import Item, NeedKind, Purpose

RULE = "shelter_and_shovel_fly_first"


def shelter_and_shovel_fly_first(replay: Replay) -> Iterator[Finding]:
    """What of shelter and shovel the first people do not have aboard, one finding a thing."""
    for side in sides(replay):
        first = next((waiting.flown for waiting in waits(side) if waiting.is_first), None)
        if first is None:
            continue
        flight_id = first.flight.flight_id
        there = [(item, n) for item, n in aboard(replay.facts, first) if n]
        shelters = [(item, n) for item, n in there if item.purpose is Purpose.SHELTER]
        places = sum(item.shelter_places * n for item, n in shelters)
        lacking = []
        if (short := len(first.people) - places) > 0:
            words = f"shelter for {places} of {len(first.people)} people"
            lacking.append(("shelter", words, short, "places"))
        if not any(item.purpose is Purpose.SHOVEL for item, _ in there):
            lacking.append(("shovel", "no shovel", 1, "units"))
        listed = [i for i in replay.facts.problem.gear if i.purpose is Purpose.SHELTER]
        if len({_for_trips(item) for item in listed}) > 1:
            brought = {_for_trips(item) for item, _ in shelters}
            for kind, word in ((False, "nights"), (True, "trips")):
                if kind not in brought:
                    lacking.append((f"shelter for {word}", f"no shelter for {word}", 1, "units"))
        for thing, words, amount, unit in lacking:
            yield Finding(
                RULE,
                f"flight {flight_id}, the first with people: {words} aboard",
                amount,
                unit,
                (("flight", flight_id), ("thing", thing)),
            )


def _for_trips(item: Item) -> bool:
    """Whether a shelter goes along on trips, and so is not the tent of a camp."""
    return item.need.kind in {NeedKind.EVERY_TRIP, NeedKind.WORN}
