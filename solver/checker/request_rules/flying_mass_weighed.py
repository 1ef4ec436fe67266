"""Flying mass weighed: mass in the aircraft is computed until it is weighed.

Where there are flights: each person has a flying mass.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.flights import flying_mass_g
from solver.checker.queries.telling import kg
from solver.plan import Finding
from solver.problem import FlightDirection

RULE = "flying_mass_weighed"


def flying_mass_weighed(facts: Facts) -> Iterator[Finding]:
    """People whose flying mass is body mass and an allowance for what is worn."""
    if not facts.problem.flights:
        return
    for person in facts.problem.roster:
        if person.flying_mass_g is None and person.body_mass_g is not None:
            computed_g = flying_mass_g(facts.problem, person, FlightDirection.FLY_OUT)
            yield Finding(
                RULE,
                f"{person.person_id} is taken to be {kg(computed_g)} in the aircraft, from body "
                "mass: weigh everybody in boots and clothes",
                1,
                "people",
                (("person", person.person_id),),
            )
