"""Who and what is at the start place between flights."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from solver.checker.queries.flights import FlownFlight, Side
from solver.problem import FlightDirection, Person


@dataclass(frozen=True, slots=True)
class Waiting:
    """Who and what is at the start place once a flight of a direction has left it.

    `is_first` is true of the first flight in that brought anybody.
    """

    side: Side
    flown: FlownFlight
    people: tuple[Person, ...]
    counts: Mapping[str, int]
    is_first: bool

    def members(self, cook_group_id: str) -> int:
        """How many of a cook group wait [people]."""
        return sum(person.cook_group_id == cook_group_id for person in self.people)


def waits(side: Side) -> Iterator[Waiting]:
    """What is at the start place after each flight of a direction at which anybody is there."""
    inbound = side.direction is FlightDirection.FLY_IN
    here: Counter[str] = Counter() if inbound else Counter(dict(side.counts))
    people = set() if inbound else {p.person_id for p in side.facts.problem.roster}
    for flown in side.flights:
        moving = {person.person_id for person in flown.people}
        is_first = inbound and not people and bool(moving)
        if inbound:
            people |= moving
            here.update(flown.counts)
        else:
            people -= moving
            here.subtract(flown.counts)
        if people:
            waiting = tuple(p for p in side.facts.problem.roster if p.person_id in people)
            yield Waiting(side, flown, waiting, Counter(here), is_first)
