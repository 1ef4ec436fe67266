"""Own food flies first: allergic people find their food, and nobody is without medication.

For each person with allergens to avoid or react to, after the flight in that brings them: the
cook group's night sets there >= nights x people of the group there. For each person's own
medication and injectors: in with their owner or before, out with their owner or after.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import Side, sides
from solver.checker.queries.holdings import in_hand, night_sets
from solver.checker.queries.waiting import waits
from solver.plan import Finding
from solver.problem import Flight, FlightDirection, NeedKind, Person, Purpose

RULE = "own_food_flies_first"


def own_food_flies_first(replay: Replay) -> Iterator[Finding]:
    """Night sets that are not there yet, one finding a cook group, and medication apart."""
    nights = replay.facts.problem.rules.whole("own_food_nights")
    for side in sides(replay):
        if side.direction is FlightDirection.FLY_IN:
            yield from _food(side, nights)
        yield from _medication(side)


def _food(side: Side, nights: int) -> Iterator[Finding]:
    worst: dict[str, tuple[int, int, Person, Flight]] = {}
    for waiting in waits(side):
        for person in waiting.flown.people:
            group_id = person.cook_group_id
            there = in_hand(night_sets(side.facts, group_id), waiting.counts)
            short = nights * waiting.members(group_id) - there
            allergic = person.avoids or person.reacts_to
            if allergic and short > worst.get(group_id, (0,))[0]:
                worst[group_id] = short, there, person, waiting.flown.flight
    for group_id, (short, there, person, flight) in worst.items():
        yield Finding(
            RULE,
            f"{person.person_id} comes with flight {flight.flight_id}: with it or before come "
            f"{there} night sets of cook group {group_id}, {short} too few for "
            f"{nights} nights",
            short,
            "night sets",
            (("flight", flight.flight_id), ("person", person.person_id), ("cook_group", group_id)),
        )


def _medication(side: Side) -> Iterator[Finding]:
    inbound = side.direction is FlightDirection.FLY_IN
    for item in side.facts.problem.gear:
        if item.purpose not in {Purpose.MEDICATION, Purpose.INJECTOR} or item.owner_id is None:
            continue
        if item.need.kind is NeedKind.WORN:
            continue
        owner_is_there = not inbound
        for flown in side.flights:
            moves = item.owner_id in {person.person_id for person in flown.people}
            # In: what comes after the owner. Out: what goes before the owner does.
            count = flown.counts.get(item.unit_id, 0) if owner_is_there and not moves else 0
            if count:
                yield Finding(
                    RULE,
                    f"{item.unit_id} on flight {flown.flight.flight_id}: {count} away from "
                    f"{item.owner_id}, who is at {side.facts.problem.start_place} then",
                    count,
                    "units",
                    (("flight", flown.flight.flight_id), ("unit", item.unit_id)),
                )
            if moves:
                owner_is_there = inbound
