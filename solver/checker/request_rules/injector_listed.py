"""Injector listed: who reacts even to traces of an allergen has an injector in the gear.

For each person with such an allergen: injectors owned >= 1. Whether one is needed is for the
physician to say, which is why this only warns.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.words import listed
from solver.plan import Finding
from solver.problem import Purpose

RULE = "injector_listed"


def injector_listed(facts: Facts) -> Iterator[Finding]:
    """People with a severe allergy for whom no injector is listed."""
    owners = {item.owner_id for item in listed_items(facts, Purpose.INJECTOR)}
    for person in facts.problem.roster:
        if person.reacts_to and person.person_id not in owners:
            yield Finding(
                RULE,
                f"{person.person_id} reacts even to traces of {listed(person.reacts_to)}, and no "
                "injector is listed: ask the physician, and list it if there is one",
                1,
                "people",
                (("person", person.person_id),),
                ("an injector owned by the person, and a second one with a rope mate",),
            )
