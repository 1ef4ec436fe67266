"""Lighters in three places: one wet pocket or one lost pack never leaves cold stoves.

People who have a lighter or matches of their own + shared units of them >= the least number of
places.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose

RULE = "lighters_in_three_places"


def lighters_in_three_places(facts: Facts) -> Iterator[Finding]:
    """How many places are missing; all that one person has is in one place."""
    needed = facts.problem.rules.whole("lighter_places")
    lighters = listed_items(facts, Purpose.LIGHTER)
    owners = {item.owner_id for item in lighters if item.owner_id is not None}
    has = len(owners) + sum(item.count for item in lighters if item.owner_id is None)
    if has < needed:
        yield Finding(
            RULE,
            f"lighters or matches in {counted(has, 'place')}, {needed} needed: what one person "
            "has counts as one place",
            needed - has,
            "places",
            (("purpose", Purpose.LIGHTER.value),),
            (
                f"a lighter of their own for {needed - has} more people, worn or in the pack",
                f"{counted(needed - has, 'shared lighter')} more in the gear",
            ),
        )
