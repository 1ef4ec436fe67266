"""Stoves enough: every cook group has a stove, and there are spares.

Stoves listed >= kitchens, that is cook groups that cook for themselves, + spare stoves. More than
one stove for two people is what published polar trips took: one pair had three.

Documents: polar-manual, polar-weight.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import units_of
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose

RULE = "stoves_enough"


def stoves_enough(facts: Facts) -> Iterator[Finding]:
    """How many stoves are missing."""
    problem = facts.problem
    spare = problem.rules.whole("spare_stoves")
    kitchens = len({problem.kitchen_id(person.cook_group_id) for person in problem.roster})
    has = units_of(facts, Purpose.STOVE)
    missing = kitchens + spare - has
    if missing > 0:
        yield Finding(
            RULE,
            f"{counted(has, 'stove')} for {counted(kitchens, 'cook group')}: "
            f"{kitchens + spare} needed, one each and {spare} to spare",
            missing,
            "units",
            (("purpose", Purpose.STOVE.value),),
            (
                f"{counted(missing, 'stove')} more in the gear",
                "fewer cook groups, so that more people share a kitchen",
            ),
        )
