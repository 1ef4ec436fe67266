"""Seats for all: the flights of a direction together have a seat for everybody.

For each direction with flights: sum of seats >= people.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.flights import flights_of
from solver.plan import Finding
from solver.problem import FlightDirection

RULE = "seats_for_all"


def seats_for_all(facts: Facts) -> Iterator[Finding]:
    """People without a seat, by direction."""
    people = len(facts.problem.roster)
    for direction in FlightDirection:
        flights = flights_of(facts.problem, direction)
        seats = sum(flight.seats for flight in flights)
        if flights and people > seats:
            over = people - seats
            word = "seat" if over == 1 else "seats"
            yield Finding(
                RULE,
                f"{people} people, {seats} seats on all flights {direction.way}: {over} "
                f"{'person' if over == 1 else 'people'} too many",
                over,
                "people",
                (("direction", direction.value),),
                (
                    f"{over} more {word} on the flights {direction.way}",
                    f"one more flight {direction.way}",
                ),
            )
