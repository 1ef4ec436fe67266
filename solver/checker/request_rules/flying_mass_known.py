"""Flying mass known: the request gives everybody's mass in the aircraft, or of the body.

Where there are flights: each person has a flying mass, or else a body mass.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.plan import Finding

RULE = "flying_mass_known"


def flying_mass_known(facts: Facts) -> Iterator[Finding]:
    """People whose mass nobody knows."""
    if not facts.problem.flights:
        return
    for person in facts.problem.roster:
        if person.flying_mass_g is None and person.body_mass_g is None:
            yield Finding(
                RULE,
                f"{person.person_id} flies, and neither flying mass nor body mass is known",
                1,
                "people",
                (("person", person.person_id),),
                (f"the flying mass of {person.person_id}, as weighed for the aircraft",),
            )
