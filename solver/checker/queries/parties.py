"""Parties on crevassed legs, what rides with them, and the words for both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.checker.queries.telling import Where, trip_words
from solver.problem import Hazard, Item, NeedKind, Person, Purpose, Trip

CARRIED = frozenset({NeedKind.EVERY_TRIP, NeedKind.WORN})
"""Needs of things that are with their people whenever these move."""

WORDS = {purpose: purpose.value.replace("_", " ") for purpose in Purpose}
"""Each purpose as people say it."""


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
    """Every party that travels a leg which says its crevasse hazard, in order of first trips."""
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


def units_of(facts: Facts, purpose: Purpose) -> int:
    """How many units of a purpose the gear lists [1]."""
    return sum(item.count for item in facts.problem.gear if item.purpose is purpose)


def units_riding(facts: Facts, purpose: Purpose, trip: Trip) -> int:
    """How many units of a purpose ride every trip and are on this one, or are worn on it [1]."""
    return sum(_riding(facts, i, trip) for i in facts.problem.gear if i.purpose is purpose)


def _riding(facts: Facts, item: Item, trip: Trip) -> int:
    if item.need.kind is not NeedKind.WORN:
        return item.count if facts.needs.must_ride(item, trip) else 0
    return worn_among(facts, item, trip.person_ids)


def worn_among(facts: Facts, item: Item, people: Sequence[str]) -> int:
    """How many units of something worn are on some people for sure [1].

    Somebody who is not among them may wear one of those that have no owner.
    """
    elsewhere = facts.needs.people_of(item) - set(people)
    if item.owner_id is not None:
        return 0 if elsewhere else item.count
    return max(0, item.count - len(elsewhere))


def party_where(party: Party, trip: Trip) -> Where:
    """A party's trip as (name, value) pairs, its first person named for all."""
    return (
        ("day", trip.day),
        ("step", trip.step),
        ("from_place", trip.from_place),
        ("to_place", trip.to_place),
        ("person", party.people[0].person_id),
    )


def listed(words: Sequence[str]) -> str:
    """Words joined with commas and a last `and`."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def trips_words(trips: Sequence[Trip], most: int = 3) -> str:
    """The first few trips by name and how many more there are."""
    told = "; ".join(trip_words(trip) for trip in trips[:most])
    more = len(trips) - most
    return f"{told}; and {counted(more, 'more trip')}" if more > 0 else told


def units_words(number: int, purpose: Purpose) -> str:
    """So many units of a purpose as people say it."""
    if purpose is Purpose.NAVIGATION:
        return f"{number} means of navigation"
    return counted(number, WORDS[purpose])


def counted(number: int, word: str) -> str:
    """A number with its noun, in the plural where it is not one."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
