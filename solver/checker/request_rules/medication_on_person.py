"""Medication on person: what a person needs for their own body is always on them.

Each item of personal medication is worn or needed on every trip, wherever its owner goes.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.personal import always_with
from solver.plan import Finding
from solver.problem import Purpose

RULE = "medication_on_person"


def medication_on_person(facts: Facts) -> Iterator[Finding]:
    """Personal medication that may be somewhere else than its owner."""
    for item in facts.problem.gear:
        owner = item.owner_id
        if item.purpose is not Purpose.MEDICATION or owner is None or always_with(facts, item):
            continue
        yield Finding(
            RULE,
            f"{item.item_id} is medication of {owner} but need not be with {owner} on every trip "
            "and every night",
            item.count,
            "units",
            (("person", owner), ("unit", item.unit_id)),
            (
                f"{item.item_id} with the need for every trip, without a place where that ends",
                f"{item.item_id} worn by {owner}",
            ),
        )
