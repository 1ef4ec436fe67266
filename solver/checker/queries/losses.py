"""What is left within reach of a trip once any one pack or sled of it is gone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.loads import Carrier, TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import arrival
from solver.checker.queries.holdings import Worth, held, in_hand
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding
from solver.problem import CookGroup, Trip


@dataclass(frozen=True, slots=True)
class Loss:
    """The pack or sled whose loss leaves least of something, what is left and what is missing."""

    carrier: Carrier
    left: int
    missing: int


def worst_loss(replay: Replay, record: TripRecord, worth: Worth, needed: int) -> Loss | None:
    """The worst loss on a trip where any leaves less than is needed, the first among equals.

    Computed with all that stands within reach once the trips of the moment have arrived.
    """
    there = held(replay, worth, within_reach(replay, record.trip), arrival(record.trip.moment))
    worst: Loss | None = None
    for carrier in _carriers(record):
        left = there - in_hand(worth, carrier.counts)
        if left < needed and (worst is None or left < worst.left):
            worst = Loss(carrier, left, needed - left)
    return worst


def within_reach(replay: Replay, trip: Trip) -> tuple[str, ...]:
    """The places that a trip's party visits on that day, each once."""
    problem = replay.facts.problem
    team = problem.person(trip.person_ids[0]).rope_team_id
    return tuple(dict.fromkeys(problem.calendar.days[trip.day - 1].visit_of(team).places))


def people_in_reach(replay: Replay, trip: Trip) -> frozenset[str]:
    """Everybody who is within reach once the trips of the moment have arrived."""
    here = replay.facts.whereabouts[trip.moment]
    places = within_reach(replay, trip)
    return frozenset(person for person, place in here.items() if place in places)


def members_in_reach(replay: Replay, trip: Trip, group: CookGroup) -> int:
    """How many of a cook group are within reach of a trip then [1]."""
    people = people_in_reach(replay, trip)
    members = replay.facts.problem.members(group.cook_group_id)
    return sum(member.person_id in people for member in members)


def nights_left(replay: Replay, trip: Trip) -> int:
    """Nights from that of the trip's day to the last [1]."""
    return len(replay.facts.timeline.nights) + 1 - trip.day


def nights_within(replay: Replay, trip: Trip, hours: int) -> int:
    """Nights that some hours after a trip bring, no more than are left [1]."""
    return min(-(-hours // 24), nights_left(replay, trip))


def loss_finding(
    rule_id: str, record: TripRecord, loss: Loss, *, words: str, unit: str, group: str = ""
) -> Finding:
    """A finding on a trip, naming the pack or sled that may not be lost."""
    trip = record.trip
    return Finding(
        rule_id,
        f"{trip_words(trip)}: were the {loss.carrier.name} lost, {words} within the party's reach",
        loss.missing,
        unit,
        (
            *trip_where(trip),
            *carrier_where(loss.carrier),
            *((("cook_group", group),) if group else ()),
        ),
    )


def _carriers(record: TripRecord) -> Iterator[Carrier]:
    """Packs and sleds of the party, empty ones too, in its order."""
    for burden in record.burdens:
        yield burden.pack
        if burden.sled is not None:
            yield burden.on_sled
