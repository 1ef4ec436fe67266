"""Payload for people: a direction's flights together lift its people, and one lifts each.

For each direction with flights: sum of payloads >= sum of people's flying mass (and first lunch
on the way in), and largest payload >= each person's.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.flights import flights_of, flying_mass_g
from solver.checker.queries.telling import kg
from solver.plan import Finding
from solver.problem import FlightDirection

RULE = "payload_for_people"


def payload_for_people(facts: Facts) -> Iterator[Finding]:
    """Grams of people that no way of sharing them out lifts, before any cargo."""
    for direction in FlightDirection:
        payloads = [flight.payload_g for flight in flights_of(facts.problem, direction)]
        if not payloads:
            continue
        way = direction.way
        total_g = 0
        for person in facts.problem.roster:
            mass_g = flying_mass_g(facts.problem, person, direction)
            total_g += mass_g
            if mass_g > max(payloads):
                yield Finding(
                    RULE,
                    f"{person.person_id} is {kg(mass_g)} in the aircraft, no flight {way} takes "
                    f"more than {kg(max(payloads))}: {kg(mass_g - max(payloads))} too much",
                    mass_g - max(payloads),
                    "g",
                    (("direction", direction.value), ("person", person.person_id)),
                    (f"a flight {way} with a payload of {kg(mass_g)}",),
                )
        over_g = total_g - sum(payloads)
        if over_g > 0:
            yield Finding(
                RULE,
                f"people are {kg(total_g)}, all flights {way} together take "
                f"{kg(sum(payloads))}: {kg(over_g)} too much before any cargo",
                over_g,
                "g",
                (("direction", direction.value),),
                (f"one more flight {way}", "fewer people"),
            )
