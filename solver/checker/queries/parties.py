"""Parties on crevassed legs, and what rides with them."""

from __future__ import annotations

from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.telling import Where
from solver.checker.queries.words import listed
from solver.checker.queries.worn import worn_among
from solver.problem import Hazard, Item, NeedKind, Person, Purpose, Trip

CARRIED = frozenset({NeedKind.EVERY_TRIP, NeedKind.WORN})
"""Needs of things that are with their people whenever these move."""


@dataclass(frozen=True, slots=True)
class Party:
    """The same people together on crevassed legs, with all those trips, in order."""

    people: tuple[Person, ...]
    trips: tuple[Trip, ...]

    @property
    def guides(self) -> int:
        """How many of them are guides [1]."""
        return sum(person.is_guide for person in self.people)

    @property
    def rope_teams(self) -> int:
        """How many rope teams they make [1]."""
        return len({person.rope_team_id for person in self.people})

    @property
    def words(self) -> str:
        """The people as one speaks of them."""
        return listed([person.person_id for person in self.people])


def crevassed_parties(facts: Facts) -> list[Party]:
    """Every party that travels a leg whose crevasse hazard is given, in order of first trips."""
    trips: dict[tuple[str, ...], list[Trip]] = {}
    for trip in facts.timeline.trips:
        if trip.leg.crevasse_hazard is not None:
            trips.setdefault(trip.person_ids, []).append(trip)
    return [
        Party(tuple(facts.problem.person(p) for p in people), tuple(its))
        for people, its in trips.items()
    ]


def least_people(facts: Facts, hazard: Hazard | None) -> int:
    """How many people a party on a leg of that hazard must be at least [1]."""
    if hazard is None:
        return 1
    name = "least_party_low_hazard_people" if hazard is Hazard.LOW else "least_party_people"
    return facts.problem.rules.whole(name)


def units_riding(facts: Facts, purpose: Purpose, trip: Trip) -> int:
    """How many units of a purpose ride every trip and are on this one, or are worn on it [1]."""
    return sum(_riding(facts, item, trip) for item in listed_items(facts, purpose))


def _riding(facts: Facts, item: Item, trip: Trip) -> int:
    if item.need.kind is not NeedKind.WORN:
        return item.count if facts.needs.must_ride(item, trip) else 0
    return worn_among(facts, item, trip.person_ids)


def party_where(party: Party, trip: Trip) -> Where:
    """A party's trip as (name, value) pairs, its first person named for all."""
    return (
        ("day", trip.day),
        ("step", trip.step),
        ("from_place", trip.from_place),
        ("to_place", trip.to_place),
        ("person", party.people[0].person_id),
    )
