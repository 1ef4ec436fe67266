"""Pots enough: every cook group has a pot of its own, so that no diet or allergen is mixed.

Pots listed >= kitchens, that is cook groups that cook for themselves.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import units_of
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose

RULE = "pots_enough"


def pots_enough(facts: Facts) -> Iterator[Finding]:
    """How many pots are missing."""
    problem = facts.problem
    kitchens = len({problem.kitchen_id(person.cook_group_id) for person in problem.roster})
    has = units_of(facts, Purpose.POT)
    if has < kitchens:
        yield Finding(
            RULE,
            f"{counted(has, 'pot')} for {counted(kitchens, 'cook group')}, one each is needed",
            kitchens - has,
            "units",
            (("purpose", Purpose.POT.value),),
            (
                f"{counted(kitchens - has, 'pot')} more in the gear",
                "fewer cook groups, where diets and allergens allow it",
            ),
        )
